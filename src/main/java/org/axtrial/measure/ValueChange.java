package org.axtrial.measure;

import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/**
 * How a value changed between two measurements of the same thing, and whether the change is more than their uncertainty
 * explains. The change has the standard uncertainty √(u₁² + u₂²) and the coverage factor of the degrees of freedom of
 * both (JCGM 100:2008, 5.1.2, G.4.1); the normalised error is the change divided by k times that, and a size above 1 is
 * significant (ISO 13528:2015, 9.7, for two results with their expanded uncertainties). Both measurements are taken as
 * independent. What makes both wrong alike, such as the same scale or the same instrument, cancels in the change but not
 * in this sum, so a small real change can go unseen; one that is found does not come from that.
 *
 * @param outcome what it came to
 * @param change later minus earlier value, in the unit of the later one; empty without two values
 * @param standardUncertainty of the change; empty where nothing is known of it
 * @param coverageFactor k; empty where nothing is known of the uncertainty
 * @param normalisedError change divided by k times its standard uncertainty; empty where that is not known
 */
public record ValueChange(
        Outcome outcome,
        OptionalDouble change,
        OptionalDouble standardUncertainty,
        OptionalDouble coverageFactor,
        OptionalDouble normalisedError) {

    /** What a change came to. */
    public enum Outcome {
        /** No larger than the uncertainty of both explains, or no change at all. */
        WITHIN_UNCERTAINTY,
        /** Larger than that. */
        MOVED,
        /** The values differ, and at least one has no uncertainty to judge the change by. */
        NO_UNCERTAINTY,
        /** At least one is a bound of the quantity and not its value. */
        ONLY_BOUND,
        /** At least one has no value. */
        NO_VALUE
    }

    /**
     * The change from one measurement to another.
     *
     * @param later in the same unit as {@code earlier}
     * @throws IllegalArgumentException if the units differ
     */
    public static ValueChange of(Measurement earlier, Measurement later) {
        if (earlier.unit() != later.unit()) {
            throw new IllegalArgumentException("a change needs both values in one unit, got "
                    + earlier.unit().symbol() + " and " + later.unit().symbol());
        }
        if (earlier.missing().isPresent() || later.missing().isPresent()) {
            return unknown(Outcome.NO_VALUE, OptionalDouble.empty());
        }
        double change = later.value() - earlier.value();
        if (earlier.bound() != Measurement.Bound.EXACT || later.bound() != Measurement.Bound.EXACT) {
            return unknown(Outcome.ONLY_BOUND, OptionalDouble.of(change));
        }
        if (earlier.standardUncertainty() == 0 || later.standardUncertainty() == 0) {
            return unknown(
                    change == 0 ? Outcome.WITHIN_UNCERTAINTY : Outcome.NO_UNCERTAINTY, OptionalDouble.of(change));
        }
        List<Contribution> both = Stream.concat(
                        earlier.budget().contributions().stream(), later.budget().contributions().stream())
                .toList();
        UncertaintyBudget budget = UncertaintyBudget.of(both);
        double normalised = change / budget.expanded();
        return new ValueChange(
                Math.abs(normalised) > 1 ? Outcome.MOVED : Outcome.WITHIN_UNCERTAINTY,
                OptionalDouble.of(change),
                OptionalDouble.of(budget.combined()),
                OptionalDouble.of(budget.coverageFactor()),
                OptionalDouble.of(normalised));
    }

    private static ValueChange unknown(Outcome outcome, OptionalDouble change) {
        return new ValueChange(outcome, change, OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());
    }

    /**
     * The change as part of the tolerance: of half the range between two limits, or of the size of a single limit.
     *
     * @param criterion in the unit of the change
     * @return empty without a change, or where the tolerance is zero
     */
    public OptionalDouble shareOf(Criterion criterion) {
        double tolerance = criterion.lower().isPresent() && criterion.upper().isPresent()
                ? (criterion.upper().getAsDouble() - criterion.lower().getAsDouble()) / 2
                : Math.abs(criterion.upper().orElse(criterion.lower().orElse(0)));
        return change.isPresent() && tolerance > 0
                ? OptionalDouble.of(change.getAsDouble() / tolerance)
                : OptionalDouble.empty();
    }
}
