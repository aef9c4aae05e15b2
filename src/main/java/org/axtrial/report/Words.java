package org.axtrial.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Times and durations as they stand in the report. */
final class Words {

    private static final DateTimeFormatter DATE_TIME = DateTimeFormatter.ofPattern(
                    "yyyy-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);
    private static final DateTimeFormatter CLOCK =
            DateTimeFormatter.ofPattern("HH:mm:ss.SSS", Locale.ROOT).withZone(ZoneOffset.UTC);

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
