package org.axtrial.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A finite value with its unit.
 *
 * @param value any finite double
 * @param unit the unit of the value
 */
public record Quantity(double value, Unit unit) {

    private static final Pattern TEXT = Pattern.compile("([-+]?\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?)\\s*(\\S+)");

    public Quantity {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a quantity needs a finite value, got " + value + " " + unit.symbol());
        }
    }

    public static Quantity of(double value, Unit unit) {
        return new Quantity(value, unit);
    }

    /**
     * Reads text such as {@code "10 mm"} or {@code "-0.5 deg"}; decimal point only.
     *
     * @throws IllegalArgumentException if the number or the unit is not understood
     */
    public static Quantity parse(String text) {
        Matcher matcher = TEXT.matcher(text.strip());
        if (!matcher.matches()) {
            throw new IllegalArgumentException("expected a number and a unit such as \"10 mm\", got \"" + text + "\"");
        }
        Unit unit = Unit.of(matcher.group(2))
                .orElseThrow(() -> new IllegalArgumentException(
                        "unknown unit \"" + matcher.group(2) + "\" in \"" + text + "\"; known: " + Unit.known()));
        return new Quantity(Double.parseDouble(matcher.group(1)), unit);
    }

    /** The value in another unit of the same dimension. */
    public double in(Unit target) {
        return unit.convert(value, target);
    }

    public Quantity negate() {
        return new Quantity(-value, unit);
    }

    /**
     * As it stands in print, for example {@code −0.5°} or {@code 30 r/min}: decimal point, no grouping, U+2212 as minus
     * sign, whatever the locale. Fifteen digits are as many as every decimal number keeps in a double, so that a number
     * prints as it was written.
     */
    public String printed() {
        return printed(15);
    }

    /** As {@link #printed()}, rounded to so many significant digits, without zeros at the end. */
    public String printed(int digits) {
        BigDecimal rounded = new BigDecimal(value)
                .round(new MathContext(digits, RoundingMode.HALF_UP))
                .stripTrailingZeros();
        int before = rounded.precision() - rounded.scale();
        // Beyond these a reader would have to count zeros.
        boolean plain = rounded.signum() == 0 || (before > -6 && before <= 15);
        String number = plain ? rounded.toPlainString() : rounded.toString();
        return unit.printed(number.replace('-', '\u2212'));
    }

    /** As files and scripts spell it; {@link #parse} reads it back. */
    @Override
    public String toString() {
        String number = value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
        return unit == Unit.ONE ? number : number + " " + unit.symbol();
    }
}
