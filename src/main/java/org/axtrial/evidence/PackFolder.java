package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;

/** The files of a pack, as far as they may be trusted to be plain files that lie in it. */
public final class PackFolder {

    /** More names than this are not the traces of any run; a list without end would only fill the memory. */
    private static final int MOST_FILES = 200_000;

    private static final int DEEPEST = 16;

    /** Files that are read as a whole; a journal of a million lines is well below. */
    private static final long LARGEST_READ = 1L << 30;

    private static final Pattern NAME = Pattern.compile("[^/\\\\:\\p{Cntrl}]+(/[^/\\\\:\\p{Cntrl}]+)*");

    private static final Pattern DOTS = Pattern.compile("(^|/)\\.{1,2}(/|$)");

    private PackFolder() {}

    /**
     * Whether a name that stands in a file of a pack stays inside the pack: relative, with slashes, without {@code ..},
     * drive letters and control characters.
     */
    public static boolean isName(String name) {
        return name.length() <= 1000
                && NAME.matcher(name).matches()
                && !DOTS.matcher(name).find();
    }

    /**
     * Every name below a folder, with its size, or −1 for what is no plain file: a link, a pipe, a folder too deep.
     *
     * @throws IOException if the folder cannot be listed, or holds more names than any pack
     */
    public static SortedMap<String, Long> list(Path folder) throws IOException {
        SortedMap<String, Long> found = new TreeMap<>();
        Files.walkFileTree(folder, Set.of(), DEEPEST, new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
                if (found.size() == MOST_FILES) {
                    throw new IOException("more than " + MOST_FILES + " files are no evidence pack");
                }
                String name = folder.relativize(file).toString().replace('\\', '/');
                found.put(name, attributes.isRegularFile() ? attributes.size() : -1L);
                return FileVisitResult.CONTINUE;
            }
        });
        return found;
    }

    /**
     * Reads a file of a pack as a whole.
     *
     * @param name a name in the pack
     * @throws IOException if it is missing, is a link or not a plain file, lies behind a link, or is larger than anything
     *     that a run writes
     */
    public static byte[] read(Path folder, String name) throws IOException {
        return Files.readAllBytes(plain(folder, name, LARGEST_READ));
    }

    /** The path of a plain file of a pack that is no larger than so many bytes. */
    static Path plain(Path folder, String name, long largest) throws IOException {
        if (!isName(name)) {
            throw new IOException("\"" + name + "\" is no name of a file in a pack");
        }
        Path path = folder;
        for (String part : List.of(name.split("/", -1))) {
            path = path.resolve(part);
            if (Files.isSymbolicLink(path)) {
                throw new IOException(name + " is or lies behind a symbolic link; its content is not in the pack");
            }
        }
        BasicFileAttributes attributes =
                Files.readAttributes(path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        if (!attributes.isRegularFile()) {
            throw new IOException(name + " is not a plain file");
        }
        if (attributes.size() > largest) {
            throw new IOException(name + " has " + attributes.size() + " bytes, more than any run writes");
        }
        return path;
    }
}
