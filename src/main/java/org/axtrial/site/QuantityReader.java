package org.axtrial.site;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** Reads quantities and checks that they mean what their key is about, on the axis they belong to. */
final class QuantityReader {

    /** Which values make sense. */
    enum Sign {
        ANY,
        NOT_NEGATIVE,
        POSITIVE
    }

    private static final Pattern TEXT = Pattern.compile("\\s*[-+]?\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?\\s*(\\S+)\\s*");

    private final String axis;
    private final boolean linear;

    /**
     * @param axis name of the axis for messages
     * @param linear whether the axis has a lead
     */
    QuantityReader(String axis, boolean linear) {
        this.axis = axis;
        this.linear = linear;
    }

    Optional<Quantity> read(YamlMap map, String key, Sense sense, Sign sign) {
        return map.text(key)
                .flatMap(text -> check(map.document(), YamlDocument.join(map.path(), key), text, sense))
                .filter(quantity -> hasSign(map, key, quantity, sign));
    }

    /** The number of a quantity in one unit. */
    OptionalDouble value(YamlMap map, String key, Sense sense, Sign sign, Unit unit) {
        Optional<Quantity> quantity = read(map, key, sense, sign);
        return quantity.isPresent() ? OptionalDouble.of(quantity.get().in(unit)) : OptionalDouble.empty();
    }

    /** A ratio in percent from {@code least} to {@code most}. */
    double percent(YamlMap map, String key, double least, double most, double fallback) {
        OptionalDouble value = value(map, key, Sense.RATIO, Sign.ANY, Unit.PERCENT);
        if (value.isPresent() && (value.getAsDouble() < least || value.getAsDouble() > most)) {
            map.problem(
                    key,
                    "expected " + Math.round(least) + " % … " + Math.round(most) + " %, found \""
                            + map.text(key).orElse("") + "\"");
            return fallback;
        }
        return value.orElse(fallback);
    }

    /** A time from {@code least} to {@code most}. */
    Optional<Duration> time(YamlMap map, String key, Duration least, Duration most) {
        return read(map, key, Sense.TIME, Sign.ANY)
                .filter(quantity -> {
                    double micros = quantity.in(Unit.MICROSECOND);
                    boolean inside = micros >= least.toNanos() / 1e3 && micros <= most.toNanos() / 1e3;
                    if (!inside) {
                        map.problem(
                                key, "expected " + print(least) + " … " + print(most) + ", found \"" + quantity + "\"");
                    }
                    return inside;
                })
                .map(quantity -> Duration.ofNanos(Math.round(quantity.in(Unit.MICROSECOND) * 1e3)));
    }

    /** Checks one text that stands at the given path. */
    Optional<Quantity> check(YamlDocument document, String path, String text, Sense sense) {
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            document.problem(
                    path, "expected " + sense.noun() + " such as \"" + sense.example() + "\", found \"" + text + "\"");
            return Optional.empty();
        }
        Optional<Unit> unit = Unit.of(matcher.group(1));
        if (unit.isEmpty()) {
            document.problem(path, unknownUnit(text, matcher.group(1), sense));
            return Optional.empty();
        }
        if (!sense.fits(unit.get())) {
            document.problem(
                    path,
                    "\"" + text + "\" is " + Sense.nounOf(unit.get()) + "; expected " + sense.noun() + ", in "
                            + sense.units(linear));
            return Optional.empty();
        }
        if (sense.isMotion() && !linear && Sense.isLinear(unit.get())) {
            document.problem(
                    path,
                    "\"" + text + "\" is " + Sense.nounOf(unit.get()) + ", but axis " + axis + " is rotary: use "
                            + sense.units(false) + ", or give scale.lead if it travels");
            return Optional.empty();
        }
        return quantity(document, path, text);
    }

    private static Optional<Quantity> quantity(YamlDocument document, String path, String text) {
        try {
            return Optional.of(Quantity.parse(text));
        } catch (IllegalArgumentException e) { // too large for a double
            document.problem(path, "expected a finite value, found \"" + text + "\"");
            return Optional.empty();
        }
    }

    private String unknownUnit(String text, String unit, Sense sense) {
        List<String> fitting = sense.symbols(linear);
        String hint = NearMiss.hint(unit, fitting);
        return "unknown unit \"" + unit + "\" in \"" + text + "\"" + (hint.isEmpty() ? ";" : hint) + " expected "
                + sense.noun() + ", in " + String.join(", ", fitting);
    }

    private static boolean hasSign(YamlMap map, String key, Quantity quantity, Sign sign) {
        boolean good = switch (sign) {
            case ANY -> true;
            case NOT_NEGATIVE -> quantity.value() >= 0;
            case POSITIVE -> quantity.value() > 0;
        };
        if (!good) {
            String wanted = sign == Sign.POSITIVE ? "more than 0" : "0 or more";
            map.problem(key, "expected " + wanted + ", found \"" + quantity + "\"");
        }
        return good;
    }

    /** The unit of a quantity, if it can be understood. */
    static Optional<Unit> unitIn(String text) {
        Matcher matcher = TEXT.matcher(text);
        return matcher.matches() ? Unit.of(matcher.group(1)) : Optional.empty();
    }

    /** A unit by its spelling; an unknown one is told at the key, with the spellings that would do there. */
    static Optional<Unit> unit(YamlMap map, String key, List<String> known) {
        return map.text(key).flatMap(text -> {
            Optional<Unit> unit = Unit.of(text);
            if (unit.isEmpty()) {
                String hint = NearMiss.hint(text, known);
                map.problem(
                        key,
                        "unknown unit \"" + text + "\"" + (hint.isEmpty() ? ";" : hint) + " known: "
                                + String.join(", ", known));
            }
            return unit;
        });
    }

    static String print(Duration time) {
        long micros = time.toNanos() / 1_000;
        if (micros % 1_000 != 0) {
            return micros + " us";
        }
        return micros % 1_000_000 == 0 ? micros / 1_000_000 + " s" : micros / 1_000 + " ms";
    }
}
