package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;

/**
 * The list of every file of a pack with its size and SHA-256, in {@code manifest.json}. The list leaves out itself and
 * the folders {@code signatures} and {@code after}, which are made after it and prove themselves.
 */
public final class Manifest {

    /** Its name in a pack. */
    public static final String FILE = "manifest.json";

    static final String FORMAT = "axtrial-manifest-1";

    /** The folder of signatures, which it leaves out. */
    public static final String SIGNATURES = "signatures/";

    /** The folder of what comes after the run, which it leaves out, too; its ledger proves itself. */
    public static final String AFTER = "after/";

    /** Whether a file is made after the manifest, which leaves it out. */
    static boolean madeLater(String name) {
        return name.startsWith(SIGNATURES) || name.startsWith(AFTER);
    }

    private record Entry(String file, long size, String sha256) {}

    private record Content(String format, List<Entry> files) {}

    /**
     * A file that is not as the manifest says.
     *
     * @param kind in what way
     * @param file path in the pack, with slashes
     * @param detail what was expected and what is there
     */
    public record Difference(Kind kind, String file, String detail) {

        /** Ways to differ. */
        public enum Kind {
            MISSING,
            ADDED,
            ALTERED
        }

        @Override
        public String toString() {
            return kind + " " + file + ": " + detail;
        }
    }

    private Manifest() {}

    /**
     * Writes the manifest of a pack, in place of an older one.
     *
     * @throws EvidenceLostException if a file cannot be read or the manifest cannot be written
     */
    public static void write(Path folder) {
        try {
            EvidencePack.replace(
                    folder.resolve(FILE), bytes(List.copyOf(entries(folder).values())));
        } catch (IOException e) {
            throw new EvidenceLostException("the manifest of " + folder + " cannot be written: " + e, e);
        }
    }

    private static byte[] bytes(List<Entry> entries) {
        return Json.MAPPER.writeValueAsBytes(new Content(FORMAT, entries));
    }

    /**
     * Compares the files of a pack with its manifest.
     *
     * @return what differs, sorted by file; empty if all is as it was
     * @throws EvidenceLostException if the manifest is missing, cannot be read, or names what lies outside of the pack
     */
    public static List<Difference> verify(Path folder) {
        try {
            Map<String, Entry> told = read(folder);
            Map<String, Long> found = PackFolder.list(folder);
            found.keySet().removeIf(name -> name.equals(FILE) || madeLater(name));
            TreeMap<String, Difference> differences = new TreeMap<>();
            for (Entry expected : told.values()) {
                compare(folder, expected, found.get(expected.file()), differences);
            }
            found.forEach((file, size) -> {
                if (!told.containsKey(file)) {
                    String detail = size < 0 ? "a link or no plain file" : "not in the manifest";
                    differences.put(file, new Difference(Difference.Kind.ADDED, file, detail));
                }
            });
            return List.copyOf(differences.values());
        } catch (IOException | JacksonException e) {
            throw new EvidenceLostException(folder.resolve(FILE) + " cannot be checked: " + e.getMessage(), e);
        }
    }

    /** The entries by file. A manifest in any other form than that of {@link #write} was altered. */
    private static Map<String, Entry> read(Path folder) throws IOException {
        byte[] bytes = PackFolder.read(folder, FILE);
        Content content = Json.MAPPER.readValue(bytes, Content.class);
        if (!FORMAT.equals(content.format())) {
            throw new IOException("it has the format \"" + content.format() + "\", expected \"" + FORMAT + "\"");
        }
        if (content.files() == null || content.files().contains(null)) {
            throw new IOException("it has no list of files");
        }
        Map<String, Entry> entries = new TreeMap<>();
        Set<String> names = new HashSet<>();
        for (Entry entry : content.files()) {
            if (entry.file() == null || !PackFolder.isName(entry.file())) {
                throw new IOException("it names \"" + entry.file() + "\", which is no name of a file in the pack");
            }
            if (entry.sha256() == null || !entry.sha256().matches("[0-9a-f]{64}") || entry.size() < 0) {
                throw new IOException("it has no size and SHA-256 for " + entry.file());
            }
            if (!names.add(entry.file())) {
                throw new IOException("it names " + entry.file() + " twice");
            }
            entries.put(entry.file(), entry);
        }
        if (!Arrays.equals(bytes, bytes(content.files()))) {
            throw new IOException("it is not in the form in which this program writes it, so it was altered");
        }
        return entries;
    }

    private static void compare(Path folder, Entry expected, @Nullable Long size, Map<String, Difference> differences)
            throws IOException {
        String file = expected.file();
        if (size == null) {
            String detail = "the manifest has it with " + expected.size() + " bytes";
            differences.put(file, new Difference(Difference.Kind.MISSING, file, detail));
            return;
        }
        // A file of another size is not read: it is altered whatever is in it, and may be without end.
        String found = size < 0
                ? "a link or no plain file"
                : size != expected.size() ? size + " bytes" : Sha256.of(folder.resolve(file));
        if (!found.equals(expected.sha256())) {
            String there = size == expected.size() ? size + " bytes with " + found : found;
            String detail =
                    "expected " + expected.size() + " bytes with SHA-256 " + expected.sha256() + ", found " + there;
            differences.put(file, new Difference(Difference.Kind.ALTERED, file, detail));
        }
    }

    private static Map<String, Entry> entries(Path folder) throws IOException {
        Map<String, Entry> entries = new TreeMap<>();
        for (Map.Entry<String, Long> file : PackFolder.list(folder).entrySet()) {
            String name = file.getKey();
            if (name.equals(FILE) || madeLater(name)) {
                continue;
            }
            if (file.getValue() < 0) {
                throw new IOException(name + " is a link or no plain file and cannot be evidence; take it out");
            }
            entries.put(name, new Entry(name, file.getValue(), Sha256.of(folder.resolve(name))));
        }
        return entries;
    }
}
