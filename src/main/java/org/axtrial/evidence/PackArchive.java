package org.axtrial.evidence;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * A pack as one ZIP file. The same pack gives the same bytes on one Java: entries stand in the order of their names, in
 * UTF-8, all with the date 1980-02-01 and below one folder named as the pack. The bytes of the compressed data belong to
 * the zlib of the Java that wrote them.
 */
public final class PackArchive {

    /** A date of its own: Java writes the first day that the format can hold with the zone of the computer beside it. */
    private static final LocalDateTime DATE = LocalDateTime.of(1980, 2, 1, 0, 0);

    private PackArchive() {}

    /**
     * Writes a pack into a new file.
     *
     * @throws EvidenceLostException if the pack does not verify, holds a link or a name that cannot be imported, or
     *     cannot be read, or if the file is already there
     */
    public static void write(Path pack, Path zip) {
        Path folder = pack.toAbsolutePath().normalize();
        List<Manifest.Difference> differences = Manifest.verify(folder);
        if (!differences.isEmpty()) {
            throw new EvidenceLostException(
                    pack + " is not as its manifest says: " + differences.get(0)
                            + (differences.size() > 1 ? " and " + (differences.size() - 1) + " more" : "")
                            + "; nothing was archived",
                    null);
        }
        String name = folder.getFileName().toString();
        ArchiveNames names = new ArchiveNames();
        Map<String, Path> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path file : all.toList()) {
                if (Files.isSymbolicLink(file)) {
                    throw new EvidenceLostException(file + " is a link; an archive holds only files", null);
                }
                if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                    String entry =
                            name + "/" + folder.relativize(file).toString().replace('\\', '/');
                    names.add(entry);
                    files.put(entry, file);
                }
            }
            Path target = zip.toAbsolutePath().normalize();
            if (target.startsWith(folder)) {
                throw new EvidenceLostException(zip + " lies inside the pack, which would no longer verify", null);
            }
            write(files, target);
        } catch (IOException | UncheckedIOException e) {
            throw new EvidenceLostException("the archive " + zip + " cannot be written: " + e, e);
        }
    }

    private static void write(Map<String, Path> files, Path zip) throws IOException {
        Path fresh = zip.resolveSibling(zip.getFileName() + ".part");
        if (Files.exists(zip, LinkOption.NOFOLLOW_LINKS)) {
            throw new EvidenceLostException(zip + " is already there; give another name", null);
        }
        try {
            try (OutputStream file =
                            Files.newOutputStream(fresh, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                    ZipOutputStream out = new ZipOutputStream(file, StandardCharsets.UTF_8)) {
                out.setLevel(Deflater.BEST_COMPRESSION);
                for (Map.Entry<String, Path> each : files.entrySet()) {
                    ZipEntry entry = new ZipEntry(each.getKey());
                    // A local time, so that the zone of this computer does not change the bytes.
                    entry.setTimeLocal(DATE);
                    out.putNextEntry(entry);
                    try (InputStream in = Files.newInputStream(each.getValue())) {
                        in.transferTo(out);
                    }
                    out.closeEntry();
                }
            }
            Files.move(fresh, zip, StandardCopyOption.ATOMIC_MOVE);
        } finally {
            Files.deleteIfExists(fresh);
        }
    }

    static void deleteAll(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
