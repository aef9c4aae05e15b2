package org.axtrial.evidence;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

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

    /** The text of a line, without its line feed, and its hash. */
    record Written(String text, String hash) {}

    static Written write(long seq, Instant at, JournalEntry entry, String prev) {
        ObjectNode line = Json.MAPPER.createObjectNode();
        line.put("seq", seq);
        line.put("at", at.toString());
        line.put("type", entry.getClass().getSimpleName());
        line.set("data", Json.tree(entry));
        line.put("prev", prev);
        String hash = Sha256.of(CanonicalJson.bytes(line));
        line.put("hash", hash);
        return new Written(CanonicalJson.text(line), hash);
    }

    /**
     * Reads a line and proves its hash and its place in the chain.
     *
     * @return the line, or nothing if these bytes are not the line that must stand here
     */
    static Optional<JournalLine> read(byte[] bytes, long seq, String prev) {
        try {
            JsonNode node = Json.MAPPER.readTree(bytes);
            if (!(node instanceof ObjectNode line)) {
                return Optional.empty();
            }
            // Only the canonical bytes count; the same content spelt otherwise was not written by this program.
            if (!new String(bytes, StandardCharsets.UTF_8).equals(CanonicalJson.text(line))) {
                return Optional.empty();
            }
            String hash = text(line.remove("hash"));
            boolean inChain = hash.equals(Sha256.of(CanonicalJson.bytes(line)))
                    && text(line.get("prev")).equals(prev)
                    && line.path("seq").asLong(-1) == seq;
            Class<? extends JournalEntry> type = JournalEntry.TYPES.get(text(line.get("type")));
            if (!inChain || type == null) {
                return Optional.empty();
            }
            JournalEntry entry = Json.MAPPER.treeToValue(line.get("data"), type);
            return Optional.of(new JournalLine(seq, Instant.parse(text(line.get("at"))), entry, prev, hash));
        } catch (JacksonException | IllegalArgumentException | DateTimeException e) {
            return Optional.empty();
        }
    }

    private static String text(@Nullable JsonNode node) {
        return node == null || !node.isString() ? "" : node.stringValue();
    }
}
