package org.axtrial.report;

import com.google.errorprone.annotations.FormatMethod;
import java.math.BigDecimal;
import java.math.RoundingMode;

/** Elements of a drawing as text. */
final class SvgText {

    private SvgText() {}

    /**
     * What {@link String#format} makes of a pattern of {@code %s} and {@code %.2f} with one digit, but without looking up how
     * a country writes numbers for each of them: a plot has hundreds of numbers, and a report hundreds of plots.
     */
    @FormatMethod
    static String format(String pattern, Object... values) {
        StringBuilder out = new StringBuilder();
        int from = 0;
        for (Object value : values) {
            int at = pattern.indexOf('%', from);
            out.append(pattern, from, at);
            if (pattern.charAt(at + 1) == 's') {
                out.append(value);
                from = at + "%s".length();
            } else {
                out.append(rounded((Double) value, pattern.charAt(at + 2) - '0'));
                from = at + "%.2f".length();
            }
        }
        return out.append(pattern, from, pattern.length()).toString();
    }

    private static String rounded(double value, int digits) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        String size = BigDecimal.valueOf(Math.abs(value))
                .setScale(digits, RoundingMode.HALF_UP)
                .toPlainString();
        return value < 0 ? "-" + size : size;
    }
}
