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
 * One line of a file that only grows: canonical JSON (RFC 8785) with the hash of the line before it, so that nothing can
 * be altered, moved or taken out unseen before the last hash that somebody else knows.
 *
 * @param seq 0 for the first line, then one more each
 * @param at when it happened
 * @param type which form {@code data} has
 * @param data what happened
 * @param prev hash of the line before; what the first line has there is for the file to say
 * @param hash SHA-256 of the canonical form of the line without this member
 */
public record ChainedLine(long seq, Instant at, String type, JsonNode data, String prev, String hash) {

    /** The text of a line, without its line feed, and its hash. */
    public record Written(String text, String hash) {}

    /** The line that says this. */
    public static Written write(long seq, Instant at, String type, Object data, String prev) {
        ObjectNode line = Json.MAPPER.createObjectNode();
        line.put("seq", seq);
        line.put("at", at.toString());
        line.put("type", type);
        line.set("data", Json.tree(data));
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
    public static Optional<ChainedLine> read(byte[] bytes, long seq, String prev) {
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
            JsonNode data = line.get("data");
            boolean inChain = hash.equals(Sha256.of(CanonicalJson.bytes(line)))
                    && text(line.get("prev")).equals(prev)
                    && line.path("seq").asLong(-1) == seq;
            if (!inChain || data == null) {
                return Optional.empty();
            }
            Instant at = Instant.parse(text(line.get("at")));
            return Optional.of(new ChainedLine(seq, at, text(line.get("type")), data, prev, hash));
        } catch (JacksonException | IllegalArgumentException | DateTimeException e) {
            return Optional.empty();
        }
    }

    /** What happened, in the form that its type has; nothing if it has another form. */
    public <T> Optional<T> dataAs(Class<T> form) {
        try {
            return Optional.of(Json.MAPPER.treeToValue(data, form));
        } catch (JacksonException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    private static String text(@Nullable JsonNode node) {
        return node == null || !node.isString() ? "" : node.stringValue();
    }
}
