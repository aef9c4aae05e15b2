package org.axtrial.measure;

import java.util.Comparator;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;

/** Whether a measurement is too coarse for a criterion, and what would be fine enough. */
final class Coarseness {

    /** Two numbers that differ by less are equal but for binary arithmetic. */
    private static final double SAME = 1 + 1e-9;

    private Coarseness() {}

    /** The reason why the measurement cannot resolve the criterion, empty if it can. Both in the same unit. */
    static Optional<String> of(Measurement measured, Criterion criterion) {
        double tolerance = tolerance(measured.value(), criterion);
        if (measured.resolution() > tolerance * SAME) {
            return Optional.of(tooCoarse(measured, criterion, tolerance));
        }
        if (measured.expandedUncertainty() > tolerance * SAME) {
            return Optional.of(tooUncertain(measured, criterion, tolerance));
        }
        return Optional.empty();
    }

    /** Half the distance of two limits; the size of a single limit; for a limit of zero the size of the value. */
    static double tolerance(double value, Criterion criterion) {
        OptionalDouble lower = criterion.lower();
        OptionalDouble upper = criterion.upper();
        if (lower.isPresent() && upper.isPresent()) {
            return (upper.getAsDouble() - lower.getAsDouble()) / 2;
        }
        double limit = Math.abs(upper.isPresent() ? upper.getAsDouble() : lower.orElseThrow());
        return limit > 0 ? limit : Math.abs(value);
    }

    private static String tooCoarse(Measurement measured, Criterion criterion, double tolerance) {
        Unit unit = criterion.unit();
        String limit = named(criterion, tolerance);
        String resolution = Printed.brief(measured.resolution(), unit);
        String finer = Printed.brief(roundBelow(tolerance / 2), unit);
        if (unit.dimension() == Dimension.TIME && measured.samplePeriod().isPresent()) {
            return limit + " cannot be judged from samples " + resolution + " apart; sample at " + finer
                    + " or faster, or use a value latched by the drive";
        }
        String judged = limit + " cannot be judged from a measurement that resolves " + resolution + "; ";
        return judged
                + switch (unit.dimension().motion()) {
                    case POSITION -> "use feedback or an instrument with steps of " + finer + " or finer";
                    case SPEED ->
                        "hold the speed " + timesAsLong(measured.resolution(), tolerance)
                                + " times as long or longer, or use finer feedback";
                    default -> "use a signal with steps of " + finer + " or finer";
                };
    }

    private static String tooUncertain(Measurement measured, Criterion criterion, double tolerance) {
        String largest = measured.budget().contributions().stream()
                .max(Comparator.comparingDouble(Contribution::standardUncertainty))
                .map(c -> "; reduce its largest part, " + c.name() + " (" + c.how() + ")")
                .orElse("");
        return named(criterion, tolerance) + " cannot be judged with an uncertainty of ± "
                + Printed.brief(measured.expandedUncertainty(), criterion.unit()) + " ("
                + Printed.coverage(measured) + ")" + largest;
    }

    private static String named(Criterion criterion, double tolerance) {
        if (criterion.lower().isPresent() && criterion.upper().isPresent()) {
            return "a tolerance of ± " + Printed.brief(tolerance, criterion.unit());
        }
        double limit = criterion.upper().orElseGet(() -> criterion.lower().orElseThrow());
        return "a limit of " + Printed.brief(limit, criterion.unit());
    }

    private static String timesAsLong(double resolution, double tolerance) {
        return tolerance > 0 ? Printed.brief(Math.ceil(resolution / tolerance * 2)) : "many";
    }

    /** The largest of 1, 2, 5 times a power of ten that is not above the value. */
    static double roundBelow(double value) {
        if (value <= 0) {
            return 0;
        }
        double decade = StrictMath.pow(10, Math.floor(StrictMath.log10(value)));
        double leading = value / decade * SAME;
        return leading >= 5 ? 5 * decade : leading >= 2 ? 2 * decade : decade;
    }
}
