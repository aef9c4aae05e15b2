package org.axtrial.evidence;

import java.time.Instant;
import java.util.Optional;

/**
 * One line of the journal.
 *
 * @param seq 0 for the first line, then one more each
 * @param at when it happened
 * @param entry what happened
 * @param prev hash of the line before; 64 zeros in the first line
 * @param hash SHA-256 of the canonical form of the line without this member
 */
record JournalLine(long seq, Instant at, JournalEntry entry, String prev, String hash) {

    static ChainedLine.Written write(long seq, Instant at, JournalEntry entry, String prev) {
        return ChainedLine.write(seq, at, entry.getClass().getSimpleName(), entry, prev);
    }

    /**
     * Reads a line and proves its hash and its place in the chain.
     *
     * @return the line, or nothing if these bytes are not the line that must stand here
     */
    static Optional<JournalLine> read(byte[] bytes, long seq, String prev) {
        return ChainedLine.read(bytes, seq, prev)
                .flatMap(line -> Optional.ofNullable(JournalEntry.TYPES.get(line.type()))
                        .flatMap(line::dataAs)
                        .map(entry -> new JournalLine(seq, line.at(), entry, prev, line.hash())));
    }
}
