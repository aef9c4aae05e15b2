package org.axtrial.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import org.axtrial.quantity.Unit;

/** Times and durations as they stand in the report. */
final class Words {

    private static final DateTimeFormatter DATE_TIME = DateTimeFormatter.ofPattern(
                    "yyyy-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);
    private static final DateTimeFormatter CLOCK =
            DateTimeFormatter.ofPattern("HH:mm:ss.SSS", Locale.ROOT).withZone(ZoneOffset.UTC);

    private static final DateTimeFormatter DAY =
            DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

    /** A hyphen that is the sign of a number: nothing but a blank, a bracket or the beginning stands before it. */
    private static final Pattern NEGATIVE = Pattern.compile("(?<![^\\s(\\[])-(?=\\d)");

    private Words() {}

    static String dateTime(Instant at) {
        return DATE_TIME.format(at);
    }

    static String clock(Instant at) {
        return CLOCK.format(at);
    }

    /** Three significant digits in a unit that suits, for example {@code 4 ms}. */
    static String seconds(double seconds) {
        double size = Math.abs(seconds);
        if (size > 0 && size < 1e-3) {
            return digits(seconds * 1e6) + " µs";
        }
        return size < 1 && size > 0 ? digits(seconds * 1e3) + " ms" : digits(seconds) + " s";
    }

    /** From one instant to another, the day once if it is the same. */
    static String period(Instant from, Instant to) {
        String end = dateTime(to);
        String day = DAY.format(from);
        return DATE_TIME.format(from) + " to " + (end.startsWith(day) ? end.substring(day.length() + 1) : end);
    }

    /** The key of a site file as a label: {@code orderNumber} becomes {@code Order number}. */
    static String label(String key) {
        String words = key.replaceAll("(?<=\\p{Ll})(?=\\p{Lu}\\p{Ll})", " ").replaceAll("[_-]+", " ");
        if (words.isBlank()) {
            return key;
        }
        boolean split = !words.equals(key);
        int first = words.codePointAt(0);
        String rest = words.substring(Character.charCount(first));
        return Character.toString(Character.toTitleCase(first)) + (split ? rest.toLowerCase(Locale.ROOT) : rest);
    }

    /** Names with their version numbers, without the marks of the builds. */
    static String versions(String platform) {
        return platform.replaceAll("(?<= )(\\d+(?:\\.\\d+)*)[^ ,]*", "$1");
    }

    /** Running text with the sign U+2212 before negative numbers, as the numbers of this report have it. */
    static String minus(String text) {
        return NEGATIVE.matcher(text).replaceAll("\u2212");
    }

    /** Two significant digits (JCGM 100:2008, 7.2.6) with the unit. */
    static String uncertainty(double value, Unit unit) {
        String number = value == 0
                ? "0"
                : new BigDecimal(value)
                        .round(new MathContext(2, RoundingMode.HALF_UP))
                        .toPlainString();
        return withUnit(number, unit);
    }

    /** A number with its unit; only the signs of degrees and of minutes and seconds of arc follow without a blank. */
    static String withUnit(String number, Unit unit) {
        return switch (unit) {
            case DEGREE, ARC_MINUTE, ARC_SECOND -> number + unit.printed();
            case ONE -> number;
            default -> number + " " + unit.printed();
        };
    }

    /** A number with four significant digits and its unit, for a person who cannot see the plot. */
    static String spoken(double value, Unit unit) {
        String number = new BigDecimal(value)
                .round(new MathContext(4, RoundingMode.HALF_UP))
                .stripTrailingZeros()
                .toPlainString()
                .replace('-', '\u2212');
        return withUnit(number, unit);
    }

    static String between(Instant from, Instant to) {
        Duration duration = Duration.between(from, to);
        return duration.toMinutes() > 0
                ? duration.toMinutes() + " min " + duration.toSecondsPart() + " s"
                : seconds(duration.toNanos() * 1e-9);
    }

    private static String digits(double value) {
        return new BigDecimal(value)
                .round(new MathContext(3))
                .stripTrailingZeros()
                .toPlainString();
    }

    static String count(long number, String one, String many) {
        return number + " " + (number == 1 ? one : many);
    }

    /**
     * Replaces what a page cannot hold or what would turn the reading order of the words around it: control characters
     * and bidirectional overrides become the replacement character.
     */
    static int printable(int c) {
        boolean control = Character.isISOControl(c) && c != '\n' && c != '\t';
        boolean turning = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
        boolean surrogate = c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE;
        return control || turning || surrogate || c == 0xFFFE || c == 0xFFFF ? 0xFFFD : c;
    }

    /** A text in which every character is {@link #printable}. */
    static String clean(String text) {
        return text.codePoints()
                .map(Words::printable)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
