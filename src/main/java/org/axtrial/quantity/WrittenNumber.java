package org.axtrial.quantity;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number as a person has written it, with a decimal point or a decimal comma, with or without separators of thousands.
 * {@code 1,234} may be either; nothing is guessed.
 */
public final class WrittenNumber {

    private static final Pattern SHAPE =
            Pattern.compile("([-+\u2212]?)(\\d+(?:([.,' \u00a0\u202f])\\d{3}(?:\\3\\d{3})*)?)(?:([.,])(\\d+))?");

    /** The sign before the decimals. */
    public enum Decimal {
        POINT('.'),
        COMMA(',');

        private final char sign;

        Decimal(char sign) {
            this.sign = sign;
        }

        /** In words, for messages. */
        public String printed() {
            return this == POINT ? "decimal point" : "decimal comma";
        }
    }

    /** What can be told of the decimal sign from one number alone. */
    public enum Shape {
        /** Digits only: it reads the same either way. */
        WHOLE,
        /** It can only be read with a point. */
        POINT,
        /** It can only be read with a comma. */
        COMMA,
        /** A lone sign before exactly three digits: thousands or decimals. */
        AMBIGUOUS,
        /** No number. */
        NONE
    }

    private WrittenNumber() {}

    /** What the text shows of its decimal sign. */
    public static Shape shape(String text) {
        Optional<Double> point = read(text, Decimal.POINT);
        Optional<Double> comma = read(text, Decimal.COMMA);
        if (point.isPresent() && comma.isPresent()) {
            return text.indexOf('.') < 0 && text.indexOf(',') < 0 ? Shape.WHOLE : Shape.AMBIGUOUS;
        }
        if (point.isPresent()) {
            return Shape.POINT;
        }
        return comma.isPresent() ? Shape.COMMA : Shape.NONE;
    }

    /**
     * Reads a number with one decimal sign; empty if it is none then. Groups of three digits may stand apart by the other
     * sign, by an apostrophe or by a blank.
     */
    public static Optional<Double> read(String text, Decimal decimal) {
        String stripped = text.strip();
        Matcher matcher = SHAPE.matcher(stripped);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        String whole = matcher.group(2);
        String group = matcher.group(3);
        String sign = matcher.group(4);
        String decimals = matcher.group(5);
        if (group != null && group.charAt(0) == decimal.sign) {
            // One group that looks like thousands may be the decimals; two cannot.
            if (sign != null || whole.indexOf(decimal.sign) != whole.lastIndexOf(decimal.sign)) {
                return Optional.empty();
            }
            decimals = whole.substring(whole.indexOf(decimal.sign) + 1);
            whole = whole.substring(0, whole.indexOf(decimal.sign));
            group = null;
        } else if (sign != null && sign.charAt(0) != decimal.sign) {
            return Optional.empty();
        }
        if (group != null && !whole.matches("[1-9]\\d{0,2}\\D.*")) {
            return Optional.empty();
        }
        String number = (matcher.group(1).isEmpty() || matcher.group(1).equals("+") ? "" : "-")
                + whole.replaceAll("\\D", "")
                + (decimals == null ? "" : "." + decimals);
        double value = Double.parseDouble(number);
        return Double.isFinite(value) ? Optional.of(value) : Optional.empty();
    }

    /** How to write an ambiguous number so that it cannot be mistaken, both ways. */
    public static String bothWays(String ambiguous) {
        String text = ambiguous.strip();
        return "write " + text + "0 if the last three digits are decimals, or " + text.replaceAll("[.,]", "")
                + " if they are thousands";
    }
}
