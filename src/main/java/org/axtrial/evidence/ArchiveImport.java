package org.axtrial.evidence;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * Takes a pack out of an archive that anybody may have made. Every name is looked at before anything is written, sizes
 * are counted while they are written, and the pack appears under its name only when it verifies; else nothing is left.
 */
public final class ArchiveImport {

    /**
     * How much an archive may hold.
     *
     * @param files number of entries
     * @param bytes of all files together
     * @param ratio of the unpacked to the packed size of all together, looked at above one megabyte
     */
    record Limits(int files, long bytes, int ratio) {

        static final Limits ORDINARY = new Limits(100_000, 8L << 30, 200);
    }

    private static final long SMALL = 1 << 20;

    private final Path zip;
    private final Limits limits;
    private long written;

    private ArchiveImport(Path zip, Limits limits) {
        this.zip = zip;
        this.limits = limits;
    }

    /**
     * Unpacks an archive below a folder.
     *
     * @return the folder of the pack
     * @throws EvidenceLostException if the archive is refused, does not verify, or a pack of that name is there
     */
    public static Path read(Path zip, Path into) {
        return read(zip, into, Limits.ORDINARY);
    }

    /**
     * Looks at the pack of an archive by the same rules, in a temporary folder of the system that is taken away again.
     * Whether the pack verifies is for the look to find out.
     *
     * @param look gets the folder of the pack
     * @return what the look gave
     * @throws EvidenceLostException if the archive is refused
     */
    public static <T> T aside(Path zip, Function<Path, T> look) {
        return new ArchiveImport(zip, Limits.ORDINARY).lookAside(look);
    }

    static Path read(Path zip, Path into, Limits limits) {
        return new ArchiveImport(zip, limits).run(into);
    }

    private Path run(Path into) {
        try (ZipFile file = new ZipFile(zip.toFile(), StandardCharsets.UTF_8)) {
            List<? extends ZipEntry> entries = file.stream().toList();
            String root = look(entries);
            Path target = into.resolve(root);
            if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
                throw new EvidenceLostException(target + " is already there; nothing was imported", null);
            }
            boolean made = !Files.exists(into);
            Files.createDirectories(into);
            Path fresh = Files.createTempDirectory(into, ".import-");
            boolean done = false;
            try {
                unpack(file, entries, fresh);
                verify(fresh.resolve(root));
                Files.move(fresh.resolve(root), target, StandardCopyOption.ATOMIC_MOVE);
                done = true;
            } finally {
                PackArchive.deleteAll(fresh);
                if (made && !done) {
                    Files.delete(into);
                }
            }
            return target;
        } catch (ZipException e) {
            throw unreadable(e);
        } catch (IOException e) {
            throw new EvidenceLostException(zip + " cannot be imported: " + e, e);
        }
    }

    private <T> T lookAside(Function<Path, T> look) {
        try (ZipFile file = new ZipFile(zip.toFile(), StandardCharsets.UTF_8)) {
            List<? extends ZipEntry> entries = file.stream().toList();
            String root = look(entries);
            Path fresh = Files.createTempDirectory("axtrial-");
            try {
                unpack(file, entries, fresh);
                return look.apply(fresh.resolve(root));
            } finally {
                PackArchive.deleteAll(fresh);
            }
        } catch (ZipException e) {
            throw unreadable(e);
        } catch (IOException e) {
            throw new EvidenceLostException(zip + " cannot be unpacked: " + e, e);
        }
    }

    private EvidenceLostException unreadable(ZipException cause) {
        return new EvidenceLostException(zip + " is no archive that can be read: " + cause.getMessage(), cause);
    }

    private void unpack(ZipFile file, List<? extends ZipEntry> entries, Path fresh) throws IOException {
        for (ZipEntry entry : entries) {
            if (!entry.isDirectory()) {
                unpack(file, entry, fresh);
            }
        }
    }

    private String look(List<? extends ZipEntry> entries) throws IOException {
        if (entries.size() > limits.files()) {
            throw tooMuch(entries.size() + " files, " + limits.files() + " are allowed");
        }
        ArchiveLinks.refuse(zip, entries.size());
        ArchiveNames names = new ArchiveNames();
        try {
            for (ZipEntry entry : entries) {
                if (entry.isDirectory()) {
                    // A folder is made with the first file in it; its name must still be a plain one.
                    new ArchiveNames().add(entry.getName() + "x");
                } else {
                    names.add(entry.getName());
                }
            }
        } catch (EvidenceLostException e) {
            throw new EvidenceLostException(zip + ": " + e.getMessage() + "; nothing was imported", e);
        }
        return names.root().orElseThrow(() -> new EvidenceLostException(zip + " holds no file", null));
    }

    private void unpack(ZipFile file, ZipEntry entry, Path fresh) throws IOException {
        Path target = fresh.resolve(entry.getName());
        Files.createDirectories(Objects.requireNonNull(target.getParent()));
        byte[] buffer = new byte[1 << 16];
        try (InputStream in = file.getInputStream(entry);
                OutputStream out =
                        Files.newOutputStream(target, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                written += n;
                // What the archive says of its sizes may be wrong, so only what really comes out counts.
                if (written > limits.bytes()) {
                    throw tooMuch("more than " + limits.bytes() + " bytes");
                }
                if (written > SMALL && written / limits.ratio() > Files.size(zip)) {
                    throw tooMuch("more than " + limits.ratio() + " times its own size");
                }
                out.write(buffer, 0, n);
            }
        }
    }

    private EvidenceLostException tooMuch(String what) {
        return new EvidenceLostException(zip + " is refused: it unpacks to " + what + "; nothing was imported", null);
    }

    private void verify(Path pack) {
        List<Manifest.Difference> differences = Manifest.verify(pack);
        if (!differences.isEmpty()) {
            throw new EvidenceLostException(
                    zip + " holds a pack that is not as its manifest says: " + differences.get(0)
                            + "; nothing was imported",
                    null);
        }
    }
}
