package org.axtrial.site;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** Reads one instrument of the site file; tells everything that is wrong with it at once. */
final class InstrumentReader {

    private static final double MILLIONTH = 1e-6;

    private final YamlMap map;
    private final YamlMap stated;
    private final QuantityReader quantities;

    private InstrumentReader(YamlMap map) {
        this.map = map;
        this.stated = map.map("uncertainty");
        // An instrument is no axis: it may read lengths and angles alike.
        this.quantities = new QuantityReader(map.name(), true);
    }

    static Optional<Instrument> read(YamlMap map) {
        return new InstrumentReader(map).instrument();
    }

    private Optional<Instrument> instrument() {
        Optional<String> id = map.text("id");
        Optional<String> type = map.text("type");
        Optional<String> serial = map.text("serial");
        Optional<String> certificate = map.text("certificate");
        Optional<LocalDate> calibrated = day("calibrated");
        Optional<LocalDate> due = day("due");
        boolean inOrder = calibrated.isEmpty() || due.isEmpty() || !due.get().isBefore(calibrated.get());
        if (!inOrder) {
            map.problem(
                    "due",
                    "due on " + due.get() + ", before it was calibrated on " + calibrated.get()
                            + "; take both from the certificate");
        }
        Optional<Quantity> resolution =
                quantities.read(map, "resolution", Sense.INSTRUMENT_READING, QuantityReader.Sign.POSITIVE);
        Optional<Quantity> uncertainty = uncertainty();
        OptionalDouble k = stated.number("k");
        OptionalDouble coefficient = map.number("temperatureCoefficient");
        boolean alike = alike(resolution, uncertainty);
        boolean complete = id.isPresent()
                && type.isPresent()
                && serial.isPresent()
                && certificate.isPresent()
                && calibrated.isPresent()
                && due.isPresent()
                && resolution.isPresent()
                && uncertainty.isPresent();
        if (!complete || !inOrder || !alike || coefficientOnAngle(resolution, coefficient)) {
            return Optional.empty();
        }
        Unit unit = resolution.get().unit();
        return Optional.of(new Instrument(
                id.get(),
                type.get(),
                serial.get(),
                certificate.get(),
                calibrated.get(),
                due.get(),
                unit,
                resolution.get().value(),
                uncertainty.get().in(unit),
                k.orElse(1),
                coefficient.isPresent()
                        ? OptionalDouble.of(coefficient.getAsDouble() * MILLIONTH)
                        : OptionalDouble.empty()));
    }

    private Optional<LocalDate> day(String key) {
        return map.text(key).flatMap(text -> {
            try {
                return Optional.of(LocalDate.parse(text));
            } catch (DateTimeParseException e) {
                map.problem(key, "expected a day such as 2026-03-02 (year-month-day), found \"" + text + "\"");
                return Optional.empty();
            }
        });
    }

    /** Either U with its k, or u; a U without k could be anything. */
    private Optional<Quantity> uncertainty() {
        Optional<Quantity> expanded =
                quantities.read(stated, "expanded", Sense.INSTRUMENT_READING, QuantityReader.Sign.NOT_NEGATIVE);
        Optional<Quantity> standard =
                quantities.read(stated, "standard", Sense.INSTRUMENT_READING, QuantityReader.Sign.NOT_NEGATIVE);
        if (!stated.isGiven()) {
            return Optional.empty();
        }
        if (stated.has("expanded") == stated.has("standard")) {
            map.problem(
                    "uncertainty",
                    "expected either expanded with its k, or standard; for example { expanded: 0.002 mm, k: 2 }");
            return Optional.empty();
        }
        if (stated.has("expanded") != stated.has("k")) {
            map.problem(
                    "uncertainty",
                    stated.has("k")
                            ? "k belongs to an expanded uncertainty; a standard one has none, take k out"
                            : "an expanded uncertainty needs the k of the certificate, for example"
                                    + " { expanded: 0.002 mm, k: 2 }");
            return Optional.empty();
        }
        return expanded.or(() -> standard);
    }

    private boolean alike(Optional<Quantity> resolution, Optional<Quantity> uncertainty) {
        if (resolution.isEmpty()
                || uncertainty.isEmpty()
                || resolution.get().unit().dimension()
                        == uncertainty.get().unit().dimension()) {
            return true;
        }
        map.problem(
                "uncertainty",
                "it is " + Sense.nounOf(uncertainty.get().unit()) + ", but the resolution \"" + resolution.get()
                        + "\" is " + Sense.nounOf(resolution.get().unit()) + "; give both in units of one kind");
        return false;
    }

    private boolean coefficientOnAngle(Optional<Quantity> resolution, OptionalDouble coefficient) {
        boolean wrong = coefficient.isPresent()
                && resolution.isPresent()
                && !Sense.TRAVEL_LENGTH.fits(resolution.get().unit());
        if (wrong) {
            map.problem(
                    "temperatureCoefficient",
                    "only the readings of a length grow with the scale; take this line out, the resolution is "
                            + Sense.nounOf(resolution.get().unit()));
        }
        return wrong;
    }
}
