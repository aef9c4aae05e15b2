package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A journal as read back and proven.
 *
 * @param lines every complete line
 * @param torn the unfinished end that a killed program left, not yet accounted for; empty if there is none
 * @param endsInLineFeed whether the file ends with a line feed, or is empty
 */
record Journal(List<JournalLine> lines, Optional<JournalEntry.Torn> torn, boolean endsInLineFeed) {

    static final String FILE = "journal.jsonl";

    private static final byte LINE_FEED = '\n';

    /**
     * Ends a torn line that is left where it is. RFC 7464 gives the record separator this duty; it cannot stand inside
     * JSON text, so a torn line and an altered one stay apart.
     */
    static final byte RECORD_SEPARATOR = 0x1E;

    Journal {
        lines = List.copyOf(lines);
    }

    /** Whether the run told its end. */
    boolean finished() {
        return !lines.isEmpty() && lines.get(lines.size() - 1).entry() instanceof JournalEntry.RunFinished;
    }

    /** Hash of the last line. */
    String head() {
        return lines.isEmpty()
                ? Sha256.NOTHING_BEFORE
                : lines.get(lines.size() - 1).hash();
    }

    /**
     * Reads and proves a journal.
     *
     * @throws EvidenceLostException if it cannot be read, or if anything but an unfinished end breaks the chain
     */
    static Journal read(Path file) {
        try {
            return new Reader(file.toString(), Files.readAllBytes(file)).read();
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be read: " + e, e);
        }
    }

    private static final class Reader {

        private final String name;
        private final byte[] bytes;
        private final List<JournalLine> lines = new ArrayList<>();
        private String head = Sha256.NOTHING_BEFORE;
        private int tornFrom = -1;

        Reader(String name, byte[] bytes) {
            this.name = name;
            this.bytes = bytes;
        }

        Journal read() {
            int start = 0;
            while (start < bytes.length) {
                int end = start;
                while (end < bytes.length && bytes[end] != LINE_FEED) {
                    end++;
                }
                take(start, end);
                start = end + 1;
            }
            Optional<JournalEntry.Torn> torn =
                    tornFrom < 0 ? Optional.empty() : Optional.of(account(tornFrom, bytes.length));
            return new Journal(lines, torn, bytes.length == 0 || bytes[bytes.length - 1] == LINE_FEED);
        }

        private void take(int start, int end) {
            Optional<JournalLine> line = JournalLine.read(Arrays.copyOfRange(bytes, start, end), lines.size(), head);
            if (line.isPresent()) {
                requireNothingAfterTheEnd(start);
                requireTornAccounted(line.get(), start);
                lines.add(line.get());
                head = line.get().hash();
                tornFrom = -1;
                return;
            }
            boolean unfinished = end == bytes.length || (end > start && bytes[end - 1] == RECORD_SEPARATOR);
            if (!unfinished) {
                throw broken(start, "does not follow from the line before it: it was altered, moved or taken out");
            }
            requireNothingAfterTheEnd(start);
            if (tornFrom < 0) {
                tornFrom = start;
            }
        }

        private void requireNothingAfterTheEnd(int start) {
            if (!lines.isEmpty() && lines.get(lines.size() - 1).entry() instanceof JournalEntry.RunFinished) {
                throw broken(start, "stands after the end of the run");
            }
        }

        private void requireTornAccounted(JournalLine line, int start) {
            Optional<JournalEntry.Torn> told =
                    line.entry() instanceof JournalEntry.RunFinished finished ? finished.torn() : Optional.empty();
            Optional<JournalEntry.Torn> seen = tornFrom < 0 ? Optional.empty() : Optional.of(account(tornFrom, start));
            if (!told.equals(seen)) {
                throw broken(start, "does not account for the unfinished line before it");
            }
        }

        private JournalEntry.Torn account(int from, int to) {
            return new JournalEntry.Torn(to - from, Sha256.of(Arrays.copyOfRange(bytes, from, to)));
        }

        private EvidenceLostException broken(int start, String what) {
            return new EvidenceLostException(
                    name + ": line " + (lines.size() + 1) + " (byte " + start + ") " + what
                            + ". The lines before it are proven; nothing from here on is.",
                    null);
        }
    }
}
