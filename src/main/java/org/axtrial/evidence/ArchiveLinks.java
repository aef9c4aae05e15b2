package org.axtrial.evidence;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;

/**
 * Looks for links in the central directory of a ZIP file. Java does not tell the external attributes, whose upper half
 * holds the Unix mode of a file (APPNOTE 6.3.10, 4.3.12, 4.3.16 and 4.4.15, from memory).
 */
final class ArchiveLinks {

    private static final int END = 0x06054b50;
    private static final int HEADER = 0x02014b50;
    private static final int END_SIZE = 22;
    private static final int HEADER_SIZE = 46;
    private static final int LONGEST_COMMENT = 0xFFFF;
    private static final int TYPE = 0170000;
    private static final int REGULAR = 0100000;
    private static final int FOLDER = 0040000;

    private ArchiveLinks() {}

    /**
     * Refuses an archive with anything but files and folders in it.
     *
     * @param entries number of entries that Java finds
     * @throws EvidenceLostException if there is a link, a device or the like, or the directory cannot be followed
     */
    static void refuse(Path zip, int entries) throws IOException {
        try (RandomAccessFile in = new RandomAccessFile(zip.toFile(), "r")) {
            ByteBuffer tail = read(in, Math.max(0, in.length() - END_SIZE - LONGEST_COMMENT), in.length());
            int at = tail.limit() - END_SIZE;
            while (at >= 0 && tail.getInt(at) != END) {
                at--;
            }
            if (at < 0) {
                throw unreadable(zip);
            }
            long size = Integer.toUnsignedLong(tail.getInt(at + 12));
            long end = in.length() - tail.limit() + at;
            if (size == 0xFFFFFFFFL || size > Math.min(end, Integer.MAX_VALUE)) {
                throw unreadable(zip);
            }
            if (follow(zip, read(in, end - size, end)) != entries) {
                throw unreadable(zip);
            }
        }
    }

    private static int follow(Path zip, ByteBuffer headers) {
        int at = 0;
        int count = 0;
        while (at < headers.limit()) {
            if (at + HEADER_SIZE > headers.limit() || headers.getInt(at) != HEADER) {
                throw unreadable(zip);
            }
            int type = (headers.getInt(at + 38) >>> 16) & TYPE;
            if (type != 0 && type != REGULAR && type != FOLDER) {
                throw new EvidenceLostException(
                        zip + " is refused: it holds a link or a device; nothing was imported", null);
            }
            at += HEADER_SIZE + length(headers, at + 28) + length(headers, at + 30) + length(headers, at + 32);
            count++;
        }
        return count;
    }

    private static int length(ByteBuffer headers, int at) {
        return Short.toUnsignedInt(headers.getShort(at));
    }

    private static ByteBuffer read(RandomAccessFile in, long from, long to) throws IOException {
        byte[] bytes = new byte[Math.toIntExact(to - from)];
        in.seek(from);
        in.readFully(bytes);
        return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static EvidenceLostException unreadable(Path zip) {
        return new EvidenceLostException(
                zip + " is refused: its directory cannot be followed (archives above 4 GB are not read)", null);
    }
}
