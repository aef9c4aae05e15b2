package org.axtrial.measure;

import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Coverage factors from Student's t and from the shapes of what is summed. The quantiles come from Hipparchus, whose functions are built on its own FastMath:
 * of the Java library that uses nothing but the square root, which is exact on every platform, and StrictMath. So a
 * factor is equal to the bit on every Java.
 */
final class CoverageFactor {

    /**
     * Φ(2): the two-sided probability 95.45 % for which infinitely many degrees of freedom give k = 2 exactly
     * (JCGM 100:2008, Table G.2 and G.6.4).
     */
    private static final double BELOW_TWO = 0.9772498680518208;

    /** The coverage of every interval, Φ(2) − Φ(−2). */
    static final double LEVEL = 2 * BELOW_TWO - 1;

    /** From here on k differs from 2 by less than 3 in a million. */
    private static final double AS_GOOD_AS_INFINITE = 1e6;

    private static final NormalDistribution NORMAL = new NormalDistribution();

    private CoverageFactor() {}

    /**
     * Factor for a coverage of 95.45 %.
     *
     * @param degreesOfFreedom effective ones, positive; cut to the next lower whole number (JCGM 100:2008, G.4.1 note 1),
     *     but not below one
     */
    static double of(double degreesOfFreedom) {
        return degreesOfFreedom >= AS_GOOD_AS_INFINITE ? 2 : student(whole(degreesOfFreedom), BELOW_TWO);
    }

    /**
     * Factor for a coverage of 95.45 % of a sum of parts: that of Student's t for its effective degrees of freedom, or the one
     * that the shapes of its parts ask for where that is less. A sum in which a rectangular part outweighs the rest ends
     * before 2 u_c (JCGM 100:2008, G.6.5 and F.2.3.3; JCGM 101:2008, 9.2 for examples).
     */
    static double of(List<Contribution> parts) {
        UncertaintyBudget sum = new UncertaintyBudget(parts, 1);
        double student = of(sum.effectiveDegreesOfFreedom());
        return sum.combined() > 0 && parts.stream().anyMatch(ErrorSum::isBounded)
                ? Math.min(student, ErrorSum.of(parts).quantile(BELOW_TWO) / sum.combined())
                : student;
    }

    /** Two-sided factor for a level of confidence between 0 and 1, for example 0.95 (JCGM 100:2008, Table G.2). */
    static double twoSided(double confidence, double degreesOfFreedom) {
        return student(whole(degreesOfFreedom), (1 + confidence) / 2);
    }

    /** Probability of a value of Student's t not above {@code x}; degrees of freedom cut as in {@link #of(double)}. */
    static double studentBelow(double x, double degreesOfFreedom) {
        return degreesOfFreedom >= AS_GOOD_AS_INFINITE
                ? NORMAL.cumulativeProbability(x)
                : new TDistribution(whole(degreesOfFreedom)).cumulativeProbability(x);
    }

    private static double whole(double degreesOfFreedom) {
        return Math.max(1, Math.floor(degreesOfFreedom));
    }

    private static double student(double degreesOfFreedom, double below) {
        return new TDistribution(degreesOfFreedom).inverseCumulativeProbability(below);
    }
}
