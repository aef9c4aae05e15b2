package org.axtrial.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;

/**
 * A measured value with everything a judgement needs.
 *
 * @param name what was measured, for example {@code settling time}
 * @param definition how it is defined, one sentence that stands in the report
 * @param value finite, in {@code unit}; meaningless if {@code missing} is present
 * @param unit unit of value, resolution and budget
 * @param bound whether the value is the quantity itself or only a bound of it
 * @param source who reported it
 * @param samplePeriod seconds between samples; empty when it was not sampled
 * @param resolution smallest difference the method can see, in {@code unit}, not negative
 * @param budget what makes it uncertain
 * @param marks instants used
 * @param missing why there is no value, empty when there is one
 * @param reservation why it decides nothing whatever its value, one sentence; empty for most
 */
public record Measurement(
        String name,
        String definition,
        double value,
        Unit unit,
        Bound bound,
        Source source,
        OptionalDouble samplePeriod,
        double resolution,
        UncertaintyBudget budget,
        List<Mark> marks,
        Optional<String> missing,
        Optional<String> reservation) {

    /** How the value relates to the quantity. */
    public enum Bound {
        EXACT,
        /** The quantity is this or more: an axis that had not settled when the record ended. */
        AT_LEAST,
        /** The quantity is this or less: it was over before the first sample could see it. */
        AT_MOST
    }

    public Measurement {
        marks = List.copyOf(marks);
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " is not finite: " + value);
        }
        if (!(resolution >= 0) || Double.isInfinite(resolution)) {
            throw new IllegalArgumentException(
                    name + ": resolution must be finite and not negative, got " + resolution);
        }
    }

    /** A measurement without reservation. */
    public Measurement(
            String name,
            String definition,
            double value,
            Unit unit,
            Bound bound,
            Source source,
            OptionalDouble samplePeriod,
            double resolution,
            UncertaintyBudget budget,
            List<Mark> marks,
            Optional<String> missing) {
        this(
                name,
                definition,
                value,
                unit,
                bound,
                source,
                samplePeriod,
                resolution,
                budget,
                marks,
                missing,
                Optional.empty());
    }

    /** A measurement whose coverage factor follows from the degrees of freedom of its contributions. */
    public Measurement(
            String name,
            String definition,
            double value,
            Unit unit,
            Bound bound,
            Source source,
            OptionalDouble samplePeriod,
            double resolution,
            List<Contribution> contributions,
            List<Mark> marks,
            Optional<String> missing) {
        this(
                name,
                definition,
                value,
                unit,
                bound,
                source,
                samplePeriod,
                resolution,
                UncertaintyBudget.of(contributions),
                marks,
                missing);
    }

    /**
     * What could not be measured because the drive does not report the signal.
     *
     * @param name what was to be measured
     * @param unit unit that it would have had
     * @param why one sentence for the reader
     */
    public static Measurement notReported(String name, Unit unit, String why) {
        return new Draft(name, name + " as reported by the drive", unit).missing(why);
    }

    /**
     * A number that stands in the drive, such as a parameter. It is read as it is stored, so it has neither resolution nor
     * uncertainty; whether the drive acts by it is another question.
     *
     * @param name what it is
     * @param value finite, in {@code unit}
     */
    public static Measurement stored(String name, double value, Unit unit) {
        return new Draft(name, "As it stands in the drive.", unit).value(value);
    }

    /** Combined standard uncertainty. */
    public double standardUncertainty() {
        return budget.combined();
    }

    /** Expanded uncertainty with the coverage factor of the budget, 95.45 % for a normal distribution. */
    public double expandedUncertainty() {
        return budget.expanded();
    }

    /** The same measurement with another value. */
    Measurement withValue(double other) {
        return new Measurement(
                name,
                definition,
                other,
                unit,
                bound,
                source,
                samplePeriod,
                resolution,
                budget,
                marks,
                missing,
                reservation);
    }

    /** The same measurement with why it decides nothing; an earlier reservation stands. */
    public Measurement withReservation(Optional<String> why) {
        return new Measurement(
                name,
                definition,
                value,
                unit,
                bound,
                source,
                samplePeriod,
                resolution,
                budget,
                marks,
                missing,
                reservation.or(() -> why));
    }

    /**
     * The same measurement with its marks on another time axis.
     *
     * @param seconds where the zero of its own axis lies on the other one
     */
    public Measurement withMarksFrom(double seconds) {
        return new Measurement(
                name,
                definition,
                value,
                unit,
                bound,
                source,
                samplePeriod,
                resolution,
                budget,
                marks.stream()
                        .map(mark -> new Mark(mark.label(), mark.seconds() + seconds))
                        .toList(),
                missing,
                reservation);
    }

    /** The same measurement in another unit. Factors are positive, so bounds keep their sense. */
    public Measurement in(Unit target, Conversion conversion) {
        if (target == unit) {
            return this;
        }
        double factor = conversion.convert(1, unit, target);
        return new Measurement(
                name,
                definition,
                conversion.convert(value, unit, target),
                target,
                bound,
                source,
                samplePeriod,
                resolution * factor,
                budget.times(factor),
                marks,
                missing,
                reservation);
    }
}
