package org.axtrial.evidence;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.TreeSet;
import tools.jackson.core.io.NumberOutput;
import tools.jackson.databind.JsonNode;

/**
 * Writes JSON so that equal content gives equal bytes (RFC 8785): no white space, members sorted by UTF-16 code units,
 * the least escaping, numbers as ECMAScript prints them, UTF-8.
 */
public final class CanonicalJson {

    /** Beyond this a double no longer holds every whole number (RFC 8785, Appendix D). */
    private static final long LARGEST_EXACT = 1L << 53;

    private CanonicalJson() {}

    /** The canonical JSON of a record of the evidence, with every string made fit for UTF-8. */
    public static byte[] of(Record value) {
        return bytes(Json.tree(value));
    }

    /**
     * The canonical bytes of a tree.
     *
     * @throws IllegalArgumentException for NaN, infinity, a whole number beyond ±2⁵³ or an unpaired surrogate, which
     *     have no canonical form
     */
    public static byte[] bytes(JsonNode node) {
        return text(node).getBytes(StandardCharsets.UTF_8);
    }

    static String text(JsonNode node) {
        StringBuilder out = new StringBuilder();
        write(node, out);
        return out.toString();
    }

    private static void write(JsonNode node, StringBuilder out) {
        if (node.isObject()) {
            writeObject(node, out);
        } else if (node.isArray()) {
            out.append('[');
            String separator = "";
            for (JsonNode item : node) {
                out.append(separator);
                write(item, out);
                separator = ",";
            }
            out.append(']');
        } else if (node.isString()) {
            writeString(node.stringValue(), out);
        } else if (node.isIntegralNumber()) {
            writeWhole(node, out);
        } else if (node.isNumber()) {
            out.append(number(node.doubleValue()));
        } else {
            out.append(node.isBoolean() ? Boolean.toString(node.booleanValue()) : "null");
        }
    }

    private static void writeObject(JsonNode node, StringBuilder out) {
        out.append('{');
        String separator = "";
        // String.compareTo compares UTF-16 code units, which is the order that RFC 8785, 3.2.3 asks for.
        for (String name : new TreeSet<>(node.propertyNames())) {
            out.append(separator);
            writeString(name, out);
            out.append(':');
            write(node.get(name), out);
            separator = ",";
        }
        out.append('}');
    }

    private static void writeWhole(JsonNode node, StringBuilder out) {
        if (!node.canConvertToLong() || Math.abs(node.longValue()) > LARGEST_EXACT) {
            throw new IllegalArgumentException(
                    node + " is beyond ±2^53 and would lose digits in other readers; write it as text");
        }
        out.append(node.longValue());
    }

    private static void writeString(String text, StringBuilder out) {
        out.append('"');
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (Character.isSurrogate(c)) {
                boolean paired = Character.isHighSurrogate(c)
                        && i + 1 < text.length()
                        && Character.isLowSurrogate(text.charAt(i + 1));
                if (!paired) {
                    throw new IllegalArgumentException(
                            "unpaired surrogate \\u%04x at character %d".formatted((int) c, i));
                }
                out.append(c).append(text.charAt(++i));
            } else {
                writeCharacter(c, out);
            }
        }
        out.append('"');
    }

    private static void writeCharacter(char c, StringBuilder out) {
        switch (c) {
            case '"' -> out.append("\\\"");
            case '\\' -> out.append("\\\\");
            case '\b' -> out.append("\\b");
            case '\t' -> out.append("\\t");
            case '\n' -> out.append("\\n");
            case '\f' -> out.append("\\f");
            case '\r' -> out.append("\\r");
            default -> {
                if (c < 0x20) {
                    out.append("\\u%04x".formatted((int) c));
                } else {
                    out.append(c);
                }
            }
        }
    }

    /**
     * A double as ECMAScript's Number::toString prints it (ECMA-262, 6.1.6.1.20): the fewest digits that read back to
     * the same double, plain from 1e-6 up to below 1e21, with an exponent otherwise.
     *
     * @throws IllegalArgumentException if it is not finite
     */
    static String number(double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("JSON has no " + value);
        }
        if (value == 0) {
            return "0";
        }
        // Double.toString is not always shortest before Java 19; Jackson's writer is, on every Java.
        BigDecimal shortest = new BigDecimal(NumberOutput.toString(Math.abs(value), true)).stripTrailingZeros();
        shortest = oneDigitIfEnough(shortest, Math.abs(value));
        String digits = shortest.unscaledValue().toString();
        int point = digits.length() - shortest.scale();
        return (value < 0 ? "-" : "") + place(digits, point);
    }

    /** Java's form has two digits at least and picks the closest such; one digit may do, as in 5e-324. */
    private static BigDecimal oneDigitIfEnough(BigDecimal shortest, double value) {
        if (shortest.precision() != 2) {
            return shortest;
        }
        return List.of(RoundingMode.HALF_EVEN, RoundingMode.DOWN, RoundingMode.UP).stream()
                .map(mode -> shortest.round(new MathContext(1, mode)).stripTrailingZeros())
                .filter(candidate -> candidate.doubleValue() == value)
                .findFirst()
                .orElse(shortest);
    }

    private static String place(String digits, int point) {
        int count = digits.length();
        if (count <= point && point <= 21) {
            return digits + "0".repeat(point - count);
        }
        if (0 < point && point <= 21) {
            return digits.substring(0, point) + "." + digits.substring(point);
        }
        if (-6 < point && point <= 0) {
            return "0." + "0".repeat(-point) + digits;
        }
        int exponent = point - 1;
        String mantissa = count == 1 ? digits : digits.charAt(0) + "." + digits.substring(1);
        return mantissa + "e" + (exponent < 0 ? "-" : "+") + Math.abs(exponent);
    }
}
