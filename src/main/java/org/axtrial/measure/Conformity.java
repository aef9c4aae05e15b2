package org.axtrial.measure;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How sure it is that the measured quantity lies within its limits. The quantity is taken as distributed about
 * the measured value as the error is by the budget, mostly normally (JCGM 106:2012, 7.2; clauses from memory).
 *
 * @param zone where the value lies; empty if a bound leaves it open
 * @param guardBand w, in the unit of the criterion, not negative
 * @param probability conformance probability p_c, 0 … 1; empty for a bound
 * @param testUncertaintyRatio tolerance over expanded uncertainty; empty without uncertainty, or for a single limit of
 *     zero
 */
public record Conformity(
        Optional<Zone> zone, double guardBand, OptionalDouble probability, OptionalDouble testUncertaintyRatio) {

    /** A ratio below this deserves a warning (4:1, common practice; ANSI/NCSL Z540.3, from memory). */
    public static final double GOOD_RATIO = 4;

    /** Both in the same unit. */
    static Conformity of(Measurement measured, Criterion criterion, Optional<Zone> zone, double guardBand) {
        return new Conformity(
                zone,
                guardBand,
                measured.bound() == Measurement.Bound.EXACT
                        ? OptionalDouble.of(probability(measured, criterion))
                        : OptionalDouble.empty(),
                ratio(measured, criterion));
    }

    /** Whether the test uncertainty ratio is known and below 4:1. */
    public boolean ratioIsLow() {
        return testUncertaintyRatio.isPresent() && testUncertaintyRatio.getAsDouble() < GOOD_RATIO;
    }

    /**
     * Probability that a verdict is wrong: specific consumer's risk 1 − p_c of a PASS, specific producer's risk p_c of a
     * FAIL (JCGM 106:2012, 9.3.2); empty for other verdicts.
     */
    public OptionalDouble risk(Verdict verdict) {
        if (probability.isEmpty() || (verdict != Verdict.PASS && verdict != Verdict.FAIL)) {
            return OptionalDouble.empty();
        }
        double inside = probability.getAsDouble();
        return OptionalDouble.of(verdict == Verdict.PASS ? 1 - inside : inside);
    }

    /**
     * F(T_U − y) − F(T_L − y), F the distribution of the error (JCGM 106:2012, 7.3 and 7.4, with Φ for a normal one); without
     * uncertainty 1 inside and 0 outside.
     */
    private static double probability(Measurement measured, Criterion criterion) {
        UncertaintyBudget budget = measured.budget();
        double toLower = criterion.lower().orElse(Double.NEGATIVE_INFINITY) - measured.value();
        double toUpper = criterion.upper().orElse(Double.POSITIVE_INFINITY) - measured.value();
        if (budget.combined() == 0) {
            return toLower <= 0 && toUpper >= 0 ? 1 : 0;
        }
        if (Double.isInfinite(toUpper)) {
            return budget.below(-toLower);
        }
        return Math.max(0, budget.below(toUpper) - budget.below(toLower));
    }

    private static OptionalDouble ratio(Measurement measured, Criterion criterion) {
        double expanded = measured.expandedUncertainty();
        boolean singleZero = (criterion.lower().isEmpty() && criterion.upper().orElse(1) == 0)
                || (criterion.upper().isEmpty() && criterion.lower().orElse(1) == 0);
        return expanded == 0 || singleZero
                ? OptionalDouble.empty()
                : OptionalDouble.of(Coarseness.tolerance(measured.value(), criterion) / expanded);
    }
}
