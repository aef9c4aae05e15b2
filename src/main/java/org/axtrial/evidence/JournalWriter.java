package org.axtrial.evidence;

import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;

/** Appends lines to a journal, each forced to the disk before the call returns. Not thread-safe. */
final class JournalWriter implements AutoCloseable {

    private final Path file;
    private final FileOutputStream out;
    private long seq;
    private String head;
    private boolean failed;

    /**
     * @param file appended to, made if missing
     * @param seq number of the next line
     * @param head hash of the last line
     */
    JournalWriter(Path file, long seq, String head) throws IOException {
        this.file = file;
        // A FileChannel would be closed under the other axes' feet when one thread is interrupted; this stream is not.
        this.out = new FileOutputStream(file.toFile(), true);
        this.seq = seq;
        this.head = head;
    }

    void append(Instant at, JournalEntry entry) {
        append(new byte[0], at, entry);
    }

    /**
     * @param before raw bytes that go in front of the line in the same write
     * @throws EvidenceLostException if the line is not safe on disk; every later call fails too, because the chain would
     *     have a hole
     */
    void append(byte[] before, Instant at, JournalEntry entry) {
        if (failed) {
            throw new EvidenceLostException(file + " failed earlier in this run; nothing more can be recorded", null);
        }
        ChainedLine.Written line = JournalLine.write(seq, at, entry, head);
        byte[] text = (line.text() + "\n").getBytes(StandardCharsets.UTF_8);
        byte[] all = Arrays.copyOf(before, before.length + text.length);
        System.arraycopy(text, 0, all, before.length, text.length);
        try {
            out.write(all);
            out.getFD().sync();
        } catch (IOException e) {
            failed = true;
            throw new EvidenceLostException(
                    file + " cannot be written: " + e.getMessage() + ". Stop the run, free the disk, and run again.",
                    e);
        }
        seq++;
        head = line.hash();
    }

    @Override
    public void close() throws IOException {
        out.close();
    }
}
