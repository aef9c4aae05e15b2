package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.TokenStreamContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationFeature;

/**
 * A value in which a file differs from what its source says.
 *
 * @param path where, as a JSON path (RFC 9535), for example {@code $.trials[0].verdict}
 * @param belongs which trial, axis and check that is, in words; empty string where the path says it all
 * @param expected what the source says, as JSON; empty if it has no such value
 * @param found what the file says, as JSON; empty if it has no such value
 */
public record ValueDifference(String path, String belongs, Optional<String> expected, Optional<String> found) {

    private static final int LONGEST = 160;

    /** One sentence with both values. */
    @Override
    public String toString() {
        return path + (belongs.isEmpty() ? "" : " (" + belongs + ")") + ": the journal says "
                + expected.orElse("nothing") + ", the file says " + found.orElse("nothing");
    }

    /**
     * Where two JSON texts differ. If the second cannot be read, or says the same in another form, the one difference
     * returned is the value at the first byte that differs.
     *
     * @param expected well-formed JSON
     * @return empty only if the bytes are equal
     */
    static List<ValueDifference> between(byte[] expected, byte[] found) {
        if (Arrays.equals(expected, found)) {
            return List.of();
        }
        List<ValueDifference> differences = new ArrayList<>();
        try {
            compare("$", "", Json.MAPPER.readTree(expected), Json.MAPPER.readTree(found), differences);
        } catch (JacksonException e) {
            // No JSON any more, so only the bytes can tell.
            differences.clear();
        }
        return differences.isEmpty() ? List.of(atFirstByte(expected, found)) : List.copyOf(differences);
    }

    private static void compare(
            String path, String belongs, JsonNode expected, JsonNode found, List<ValueDifference> out) {
        if (expected.isObject() && found.isObject()) {
            TreeSet<String> names = new TreeSet<>(expected.propertyNames());
            names.addAll(found.propertyNames());
            for (String name : names) {
                step(path + member(name), belongs, expected.get(name), found.get(name), out);
            }
        } else if (expected.isArray() && found.isArray()) {
            for (int i = 0; i < Math.max(expected.size(), found.size()); i++) {
                step(path + "[" + i + "]", belongs, expected.get(i), found.get(i), out);
            }
        } else if (!expected.equals(found)) {
            out.add(new ValueDifference(path, belongs, Optional.of(shown(expected)), Optional.of(shown(found))));
        }
    }

    private static void step(
            String path,
            String belongs,
            @Nullable JsonNode expected,
            @Nullable JsonNode found,
            List<ValueDifference> out) {
        if (expected == null || found == null) {
            out.add(new ValueDifference(
                    path,
                    belongs,
                    Optional.ofNullable(expected).map(ValueDifference::shown),
                    Optional.ofNullable(found).map(ValueDifference::shown)));
        } else {
            String label = label(expected);
            boolean both = !belongs.isEmpty() && !label.isEmpty();
            compare(path, belongs + (both ? ", " : "") + label, expected, found, out);
        }
    }

    /** What a person would call an object of the record. */
    private static String label(JsonNode node) {
        if (node.path("trial").isString() && node.path("axis").isString()) {
            return node.path("trial").stringValue() + " on " + node.path("axis").stringValue();
        }
        return node.path("name").isString() && node.has("measured")
                ? "\"" + node.path("name").stringValue() + "\""
                : "";
    }

    private static String member(String name) {
        return name.matches("[A-Za-z_][A-Za-z0-9_]*") ? "." + name : "['" + name + "']";
    }

    private static String shown(JsonNode node) {
        String text =
                Json.MAPPER.writer().without(SerializationFeature.INDENT_OUTPUT).writeValueAsString(node);
        return text.length() <= LONGEST ? text : text.substring(0, LONGEST) + "…";
    }

    private static ValueDifference atFirstByte(byte[] expected, byte[] found) {
        int offset = Arrays.mismatch(expected, found);
        long line = 1
                + Arrays.stream(boxed(expected, offset)).filter(b -> b == '\n').count();
        String place = "line " + line + ", byte " + offset + ", at or near this value";
        String path = "$";
        String value = "nothing";
        try (JsonParser parser = Json.MAPPER.createParser(expected)) {
            while (parser.nextToken() != null
                    && parser.currentTokenLocation().getByteOffset() <= Math.min(offset, expected.length - 1)) {
                path = path(parser.streamReadContext());
                value = parser.getString();
            }
        }
        String there = offset < found.length ? "another byte there" : "that it ends there";
        return new ValueDifference(path, place, Optional.of(value), Optional.of(there));
    }

    private static int[] boxed(byte[] bytes, int length) {
        int[] copy = new int[Math.min(length, bytes.length)];
        Arrays.setAll(copy, i -> bytes[i]);
        return copy;
    }

    private static String path(TokenStreamContext context) {
        TokenStreamContext parent = context.getParent();
        if (parent == null) {
            return "$";
        }
        String above = path(parent);
        String name = context.currentName();
        if (context.inArray() && context.hasCurrentIndex()) {
            return above + "[" + context.getCurrentIndex() + "]";
        }
        return context.inObject() && name != null ? above + member(name) : above;
    }
}
