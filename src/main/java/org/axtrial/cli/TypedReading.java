package org.axtrial.cli;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.quantity.WrittenNumber;
import org.axtrial.quantity.WrittenNumber.Decimal;

/**
 * What a person has typed for a reading: a number, perhaps its unit, perhaps {@code @} and the temperature.
 *
 * @param value in the unit that was typed, or in the one that was asked for
 * @param temperature in °C
 */
record TypedReading(Quantity value, OptionalDouble temperature) {

    private static final Pattern SHAPE =
            Pattern.compile("([-+\u2212]?\\d(?:[\\d.,' \u00a0\u202f]*\\d)?)\\s*(?:([^\\d\\s.,][^\\s]*)|([.,]\\S*))?");

    /** What was typed cannot be taken; the message explains. */
    static final class NotUnderstood extends Exception {

        private static final long serialVersionUID = 1L;

        NotUnderstood(String message) {
            super(message);
        }
    }

    /**
     * Reads a line.
     *
     * @param unit unit that was asked for
     * @throws NotUnderstood with what to type instead
     */
    static TypedReading of(String line, Unit unit) throws NotUnderstood {
        String[] parts = line.split("@", 2);
        Quantity value = quantity(parts[0], unit);
        return new TypedReading(
                value, parts.length == 1 ? OptionalDouble.empty() : OptionalDouble.of(celsius(parts[1])));
    }

    /** Reads a temperature, with or without its unit. */
    static double celsius(String text) throws NotUnderstood {
        return quantity(text, Unit.DEGREE_CELSIUS).value();
    }

    private static Quantity quantity(String text, Unit unit) throws NotUnderstood {
        Matcher matcher = SHAPE.matcher(text.strip());
        if (!matcher.matches() || matcher.group(3) != null) {
            throw new NotUnderstood(
                    "\"" + text.strip() + "\" is no number; type a value such as 12.34 or 12,34, in " + unit.symbol());
        }
        double value = number(matcher.group(1));
        String spelling = matcher.group(2);
        return new Quantity(value, spelling == null ? unit : typed(spelling, unit));
    }

    private static double number(String text) throws NotUnderstood {
        Decimal decimal = switch (WrittenNumber.shape(text)) {
            case WHOLE, POINT -> Decimal.POINT;
            case COMMA -> Decimal.COMMA;
            case AMBIGUOUS ->
                throw new NotUnderstood(
                        "\"" + text + "\" may be thousands or decimals; " + WrittenNumber.bothWays(text));
            case NONE -> throw new NotUnderstood("\"" + text + "\" is no number; type a value such as 12.34 or 12,34");
        };
        return WrittenNumber.read(text, decimal).orElseThrow();
    }

    private static Unit typed(String spelling, Unit wanted) throws NotUnderstood {
        List<String> fitting = Arrays.stream(Unit.values())
                .filter(unit -> unit.dimension() == wanted.dimension())
                .map(Unit::symbol)
                .toList();
        Optional<Unit> unit = Unit.of(spelling);
        if (unit.isEmpty()) {
            throw new NotUnderstood("unknown unit \"" + spelling + "\"; " + NearMiss.hintOrAll(spelling, fitting));
        }
        if (unit.get().dimension() != wanted.dimension()) {
            throw new NotUnderstood(
                    "\"" + spelling + "\" is a unit of another kind; type the value in " + String.join(", ", fitting));
        }
        return unit.get();
    }
}
