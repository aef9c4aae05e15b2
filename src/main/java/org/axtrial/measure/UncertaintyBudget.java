package org.axtrial.measure;

import java.util.List;

/**
 * What makes a value uncertain, combined after the GUM (JCGM 100:2008). The contributions are taken as independent of
 * each other.
 *
 * @param contributions in the unit of the measurement
 * @param coverageFactor k, by which the combined standard uncertainty is multiplied; positive
 */
public record UncertaintyBudget(List<Contribution> contributions, double coverageFactor) {

    public UncertaintyBudget {
        contributions = List.copyOf(contributions);
        if (!(coverageFactor > 0) || Double.isInfinite(coverageFactor)) {
            throw new IllegalArgumentException("a coverage factor must be positive and finite, got " + coverageFactor);
        }
    }

    /**
     * A budget with the coverage factor for 95.45 %: k = t₉₅.₄₅(ν_eff) of Student's t, two-sided, which is 2 for infinitely
     * many degrees of freedom (JCGM 100:2008, G.6.4), or less where a contribution with ends, such as a step or a round trip,
     * outweighs the rest (G.6.5); then k is that of the sum of the distributions (JCGM 101:2008).
     */
    public static UncertaintyBudget of(List<Contribution> contributions) {
        return new UncertaintyBudget(contributions, CoverageFactor.of(contributions));
    }

    public boolean isEmpty() {
        return contributions.isEmpty();
    }

    /** Combined standard uncertainty, root of the sum of squares (JCGM 100:2008, 5.1.2). */
    public double combined() {
        return combined(contributions);
    }

    /**
     * Effective degrees of freedom, Welch and Satterthwaite (JCGM 100:2008, G.4.1), not yet cut to a whole number;
     * infinite when no contribution has finitely many.
     */
    public double effectiveDegreesOfFreedom() {
        return effectiveDegreesOfFreedom(contributions);
    }

    /** Expanded uncertainty U = k · u_c (JCGM 100:2008, 6.2.1). */
    public double expanded() {
        return coverageFactor * combined();
    }

    /**
     * Probability of an error not above {@code error}, by the distribution that gave the coverage factor.
     *
     * @param error in the unit of the measurement, may be infinite
     */
    double below(double error) {
        double combined = combined();
        if (combined == 0) {
            return error >= 0 ? 1 : 0;
        }
        double freedom = effectiveDegreesOfFreedom();
        return coverageFactor < CoverageFactor.of(freedom)
                ? ErrorSum.of(contributions).below(error)
                : CoverageFactor.studentBelow(error / combined, freedom);
    }

    /** Part of the combined variance that a contribution brings, 0 … 1. */
    public double share(Contribution contribution) {
        return share(contribution, combined());
    }

    /** The same budget in another unit, or of a result that depends on this one by a factor. */
    UncertaintyBudget times(double factor) {
        return new UncertaintyBudget(
                contributions.stream().map(c -> c.times(factor)).toList(), coverageFactor);
    }

    private static double combined(List<Contribution> contributions) {
        double sum = 0;
        for (Contribution c : contributions) {
            sum += c.standardUncertainty() * c.standardUncertainty();
        }
        return Math.sqrt(sum);
    }

    private static double share(Contribution contribution, double combined) {
        double ratio = combined == 0 ? 0 : contribution.standardUncertainty() / combined;
        return ratio * ratio;
    }

    /** With shares s_i of the variance, u_c⁴ / Σ(u_i⁴/ν_i) is 1 / Σ(s_i²/ν_i), which cannot overflow. */
    private static double effectiveDegreesOfFreedom(List<Contribution> contributions) {
        double combined = combined(contributions);
        double sum = 0;
        for (Contribution c : contributions) {
            double share = share(c, combined);
            sum += share * share / c.degreesOfFreedom();
        }
        return sum == 0 ? Double.POSITIVE_INFINITY : 1 / sum;
    }
}
