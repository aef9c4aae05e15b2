package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;

/**
 * The list of every file of a pack with its size and SHA-256, in {@code manifest.json}. The list leaves out itself and
 * the folders {@code signatures} and {@code after}, which are made after it and prove themselves.
 */
public final class Manifest {

    static final String FILE = "manifest.json";
    static final String FORMAT = "axtrial-manifest-1";

    private static final List<String> MADE_LATER = List.of("signatures/", "after/");

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
            Content content = new Content(FORMAT, List.copyOf(entries(folder).values()));
            EvidencePack.replace(folder.resolve(FILE), Json.MAPPER.writeValueAsBytes(content));
        } catch (IOException e) {
            throw new EvidenceLostException("the manifest of " + folder + " cannot be written: " + e, e);
        }
    }

    /**
     * Compares the files of a pack with its manifest.
     *
     * @return what differs, sorted by file; empty if all is as it was
     * @throws EvidenceLostException if the manifest is missing or cannot be read
     */
    public static List<Difference> verify(Path folder) {
        Map<String, Entry> told = new TreeMap<>();
        Map<String, Entry> found;
        try {
            Content content = Json.MAPPER.readValue(Files.readAllBytes(folder.resolve(FILE)), Content.class);
            if (!content.format().equals(FORMAT)) {
                throw new EvidenceLostException(
                        folder.resolve(FILE) + " has the format \"" + content.format() + "\", expected \"" + FORMAT
                                + "\"",
                        null);
            }
            content.files().forEach(entry -> told.put(entry.file(), entry));
            found = entries(folder);
        } catch (IOException | JacksonException e) {
            throw new EvidenceLostException(folder.resolve(FILE) + " cannot be checked: " + e.getMessage(), e);
        }
        Map<String, Difference> differences = new TreeMap<>();
        told.forEach((file, expected) -> compare(expected, found.get(file), differences));
        found.keySet().stream()
                .filter(file -> !told.containsKey(file))
                .forEach(file ->
                        differences.put(file, new Difference(Difference.Kind.ADDED, file, "not in the manifest")));
        return List.copyOf(differences.values());
    }

    private static void compare(Entry expected, @Nullable Entry actual, Map<String, Difference> differences) {
        String file = expected.file();
        if (actual == null) {
            differences.put(
                    file,
                    new Difference(
                            Difference.Kind.MISSING, file, "the manifest has it with " + expected.size() + " bytes"));
        } else if (!actual.equals(expected)) {
            differences.put(
                    file,
                    new Difference(
                            Difference.Kind.ALTERED,
                            file,
                            "expected " + expected.size() + " bytes with SHA-256 " + expected.sha256() + ", found "
                                    + actual.size() + " bytes with " + actual.sha256()));
        }
    }

    private static Map<String, Entry> entries(Path folder) throws IOException {
        List<Path> paths = new ArrayList<>();
        Files.walkFileTree(folder, new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                paths.add(file);
                return FileVisitResult.CONTINUE;
            }
        });
        Map<String, Entry> entries = new TreeMap<>();
        for (Path path : paths) {
            String name = folder.relativize(path).toString().replace('\\', '/');
            if (name.equals(FILE) || MADE_LATER.stream().anyMatch(name::startsWith)) {
                continue;
            }
            if (Files.isSymbolicLink(path)) {
                // Its content lies outside the pack, so it proves nothing here.
                entries.put(name, new Entry(name, 0, "a symbolic link"));
            } else {
                entries.put(name, new Entry(name, Files.size(path), Sha256.of(path)));
            }
        }
        return entries;
    }
}
