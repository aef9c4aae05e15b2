package org.axtrial.acceptance;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;

/** A folder that holds the packs of several runs whole, each as it was, below {@code sources/}. */
public final class MergedFolder {

    /** Folder of the packs. */
    public static final String SOURCES = "sources";

    private MergedFolder() {}

    /** Whether a folder claims to be one. */
    public static boolean is(Path folder) {
        return Files.exists(folder.resolve(MergedRecord.FILE), LinkOption.NOFOLLOW_LINKS)
                || Files.isDirectory(folder.resolve(SOURCES), LinkOption.NOFOLLOW_LINKS);
    }

    /**
     * The packs inside, by name.
     *
     * @throws EvidenceLostException if the folder cannot be read
     */
    public static List<Path> sources(Path folder) {
        Path inside = folder.resolve(SOURCES);
        if (!Files.isDirectory(inside, LinkOption.NOFOLLOW_LINKS)) {
            return List.of();
        }
        try (Stream<Path> all = Files.list(inside)) {
            return all.filter(path -> Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new EvidenceLostException(inside + " cannot be read: " + e, e);
        }
    }

    /**
     * The packs by run id; a pack that is given twice counts once.
     *
     * @throws EvidenceLostException if two packs have one run id and differ in any file, or cannot be read
     */
    public static SortedMap<String, Path> byRun(List<Path> packs) {
        SortedMap<String, Path> byRun = new TreeMap<>();
        for (Path pack : packs) {
            String id = RunRecord.read(pack).stamps().runId();
            if (!PackFolder.isName(id) || id.contains("/")) {
                throw new EvidenceLostException(
                        pack + " has the run id \"" + id + "\", which is no name of a folder", null);
            }
            Path other = byRun.putIfAbsent(id, pack);
            if (other != null) {
                requireSame(id, other, pack);
            }
        }
        return byRun;
    }

    private static void requireSame(String id, Path one, Path other) {
        try {
            Map<String, String> first = hashes(one);
            Map<String, String> second = hashes(other);
            List<String> differ = new ArrayList<>();
            Stream.concat(first.keySet().stream(), second.keySet().stream())
                    .distinct()
                    .sorted()
                    .filter(name -> !first.getOrDefault(name, "").equals(second.getOrDefault(name, "")))
                    .forEach(differ::add);
            if (!differ.isEmpty()) {
                throw new EvidenceLostException(
                        one + " and " + other + " are both run " + id + " and differ in " + String.join(", ", differ)
                                + ". Find out which one counts, and merge that one alone",
                        null);
            }
        } catch (IOException e) {
            throw new EvidenceLostException("the run " + id + " cannot be compared with itself: " + e, e);
        }
    }

    private static Map<String, String> hashes(Path pack) throws IOException {
        Map<String, String> all = new TreeMap<>();
        for (String name : PackFolder.list(pack).keySet()) {
            all.put(name, Sha256.of(PackFolder.read(pack, name)));
        }
        return all;
    }

    /** Copies packs into a folder, each below its run id, byte for byte. */
    public static void copy(SortedMap<String, Path> packs, Path folder) throws IOException {
        for (Map.Entry<String, Path> pack : packs.entrySet()) {
            Path target = folder.resolve(SOURCES).resolve(pack.getKey());
            for (String name : PackFolder.list(pack.getValue()).keySet()) {
                Path file = target.resolve(name);
                Files.createDirectories(file.resolveSibling("."));
                Files.write(file, PackFolder.read(pack.getValue(), name));
            }
        }
    }

    /**
     * What packs come to together.
     *
     * @throws EvidenceLostException if one cannot be read
     * @throws IllegalArgumentException if they do not belong together
     */
    public static MergedRecord record(List<Path> packs) {
        List<MergedRecord.Part> parts = new ArrayList<>();
        for (Path pack : packs) {
            RunRecord record = RunRecord.read(pack);
            try {
                parts.add(new MergedRecord.Part(
                        record,
                        Ledger.read(pack, record),
                        Sha256.of(PackFolder.read(pack, "record.json")),
                        Sha256.of(PackFolder.read(pack, Manifest.FILE))));
            } catch (IOException e) {
                throw new EvidenceLostException(pack + " cannot be read: " + e.getMessage(), e);
            }
        }
        return MergedRecord.of(parts);
    }
}
