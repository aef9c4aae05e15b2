package org.axtrial.script;

import java.util.Optional;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Printed;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;

/** A measured value as a script holds it: it can be checked, and looked at only together with a unit. */
final class MeasurementObject extends WordObject {

    private final Measurement measurement;
    private final Optional<String> trace;
    private final Conversion conversion;

    /** @param trace name of the trace it was measured on, if it was one */
    MeasurementObject(WordHost host, Measurement measurement, Optional<String> trace, Conversion conversion) {
        super(host, "the measurement \"" + measurement.name() + "\"");
        this.measurement = measurement;
        this.trace = trace;
        this.conversion = conversion;
        word("value", (values, place) -> {
            Unit unit =
                    new Arguments("value", "value(\"mm\")", values).count(1, 1).unit(0, "value");
            return usable(unit);
        });
        word("uncertainty", (values, place) -> {
            Unit unit = new Arguments("uncertainty", "uncertainty(\"mm\")", values)
                    .count(1, 1)
                    .unit(0, "uncertainty");
            requireUsable();
            return convert(measurement.standardUncertainty(), unit);
        });
    }

    Measurement measurement() {
        return measurement;
    }

    /** What its axis converts by. */
    Conversion conversion() {
        return conversion;
    }

    Optional<String> trace() {
        return trace;
    }

    /**
     * The value as a number to compute with.
     *
     * @throws NothingProvenException if there is none, or only a bound
     * @throws ScriptMistake if it cannot be told in the unit
     */
    double usable(Unit unit) {
        requireUsable();
        return convert(measurement.value(), unit);
    }

    private void requireUsable() {
        if (measurement.missing().isPresent()) {
            throw new NothingProvenException(measurement.name() + " has no value: "
                    + measurement.missing().get());
        }
        if (measurement.bound() != Measurement.Bound.EXACT) {
            throw new NothingProvenException(measurement.name() + " is only known as " + Printed.value(measurement)
                    + "; a number computed from it would prove nothing");
        }
    }

    private double convert(double value, Unit unit) {
        try {
            return conversion.convert(value, measurement.unit(), unit);
        } catch (IllegalArgumentException e) {
            throw new ScriptMistake(measurement.name() + " is in "
                    + measurement.unit().symbol() + ", a unit of " + Arguments.kindOf(measurement.unit())
                    + ", and cannot be told in " + unit.symbol() + ": " + e.getMessage());
        }
    }

    @Override
    String printed() {
        if (measurement.missing().isPresent()) {
            return measurement.name() + ": no value";
        }
        return Printed.value(measurement);
    }

    @Override
    String asNumber() {
        return "write .value(\"" + measurement.unit().symbol() + "\") to take its number";
    }
}
