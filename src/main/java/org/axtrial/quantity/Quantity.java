package org.axtrial.quantity;

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

    @Override
    public String toString() {
        String number = value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
        return unit == Unit.ONE ? number : number + " " + unit.symbol();
    }
}
