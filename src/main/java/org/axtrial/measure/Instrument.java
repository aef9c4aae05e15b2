package org.axtrial.measure;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * A measuring instrument that is no part of the machine, as its certificate tells it.
 *
 * @param id short name that scripts and reports use
 * @param type what it is
 * @param serial serial number
 * @param certificate number of the calibration certificate
 * @param calibrated first day on which the calibration counts
 * @param due last day on which it counts; the due day itself still counts
 * @param unit unit of resolution and uncertainty
 * @param resolution smallest step of a reading, finite, positive
 * @param uncertainty what the certificate states: expanded, or standard if the coverage factor is 1; finite, not negative
 * @param coverageFactor k of the certificate, 1 to 10
 * @param temperatureCoefficient how much longer its scale gets, in 1/K, relative to 20 °C; empty if it needs no correction
 */
public record Instrument(
        String id,
        String type,
        String serial,
        String certificate,
        LocalDate calibrated,
        LocalDate due,
        Unit unit,
        double resolution,
        double uncertainty,
        double coverageFactor,
        OptionalDouble temperatureCoefficient) {

    /** Reference temperature of length measurement, °C (ISO 1). */
    public static final double REFERENCE_TEMPERATURE = 20;

    /** Half-width, in K, within which a stated temperature is taken to be that of the scale. */
    static final double TEMPERATURE_KNOWN_WITHIN = 1;

    /** Whether a calibration counts on a day. */
    public enum Calibration {
        VALID("valid"),
        OVERDUE("OVERDUE"),
        /** The day lies before the calibration. */
        NOT_YET("NOT YET CALIBRATED");

        private final String printed;

        Calibration(String printed) {
            this.printed = printed;
        }

        public String printed() {
            return printed;
        }
    }

    public Instrument {
        if (!(resolution > 0) || Double.isInfinite(resolution)) {
            throw new IllegalArgumentException(id + ": resolution must be finite and positive, got " + resolution);
        }
        if (!(uncertainty >= 0) || Double.isInfinite(uncertainty)) {
            throw new IllegalArgumentException(
                    id + ": uncertainty must be finite and not negative, got " + uncertainty);
        }
        if (!(coverageFactor >= 1 && coverageFactor <= 10)) {
            throw new IllegalArgumentException(id + ": coverage factor must be 1 to 10, got " + coverageFactor);
        }
        if (due.isBefore(calibrated)) {
            throw new IllegalArgumentException(id + ": due on " + due + ", before it was calibrated on " + calibrated);
        }
    }

    /** Whether the calibration counts on a day; both the first and the due day count. */
    public Calibration calibrationOn(LocalDate day) {
        if (day.isAfter(due)) {
            return Calibration.OVERDUE;
        }
        return day.isBefore(calibrated) ? Calibration.NOT_YET : Calibration.VALID;
    }

    /** Why a reading on that day decides nothing; empty if the calibration counts. */
    public Optional<String> reservationOn(LocalDate day) {
        return switch (calibrationOn(day)) {
            case VALID -> Optional.empty();
            case OVERDUE ->
                Optional.of("the calibration of instrument " + id + " was due on " + due
                        + ", before the day of the test; calibrate it and read again");
            case NOT_YET ->
                Optional.of("instrument " + id + " was calibrated on " + calibrated
                        + ", after the day of the test; correct the dates in the site file, or read again");
        };
    }

    /**
     * What a reading measures. With a temperature coefficient α the reading x is taken back to 20 °C as x·(1 + α·(T − 20)),
     * because a scale that has grown shows too little.
     *
     * <p>Uncertainty: resolution d/√12 (JCGM 100:2008, F.2.2.1); certificate U/k (4.3.3); with α, a temperature that is
     * known within ± 1 °C, |x|·α·1 K/√3.
     *
     * @param name what was read
     * @param reading as read, finite, in a unit of the dimension of this instrument
     * @param temperature of its scale, °C; needed if it has a coefficient
     * @param day the day of the test
     * @throws IllegalArgumentException if the unit is of another dimension, or a needed temperature is missing
     */
    public Measurement measured(String name, Quantity reading, OptionalDouble temperature, LocalDate day) {
        Unit read = reading.unit();
        double step = unit.convert(resolution, read);
        Draft draft = new Draft(name, definition(), read)
                .source(Source.INSTRUMENT)
                .resolution(step)
                .add(Contribution.quantisation(
                        "resolution of " + id, "one step is " + Printed.brief(step, read), step));
        certificateIn(read).forEach(draft::add);
        double value = reading.value();
        if (temperatureCoefficient.isPresent()) {
            double alpha = temperatureCoefficient.getAsDouble();
            double celsius = temperature.orElseThrow(
                    () -> new IllegalArgumentException(id + " has a temperature coefficient, so a reading needs one"));
            value *= 1 + alpha * (celsius - REFERENCE_TEMPERATURE);
            draft.add(Contribution.rectangular(
                    "temperature of " + id,
                    "known within 1 °C",
                    Math.abs(reading.value() * alpha) * TEMPERATURE_KNOWN_WITHIN));
        }
        return draft.value(value).withReservation(reservationOn(day));
    }

    /** What makes it uncertain beside its resolution, in a unit of its dimension. */
    private List<Contribution> certificateIn(Unit read) {
        return List.of(Contribution.certificate(
                "certificate of " + id,
                certificate + ", " + Printed.brief(unit.convert(uncertainty, read), read)
                        + (coverageFactor == 1 ? ", standard" : ", k = " + Printed.brief(coverageFactor)),
                unit.convert(uncertainty, read),
                coverageFactor));
    }

    private String definition() {
        return "Read by a person on " + id + " (" + type + ", serial " + serial + ", certificate " + certificate + ")"
                + (temperatureCoefficient.isPresent() ? ", taken back to 20 °C" : "") + ".";
    }
}
