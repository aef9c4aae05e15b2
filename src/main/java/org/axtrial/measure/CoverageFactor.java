package org.axtrial.measure;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Coverage factors from Student's t. The quantiles come from Hipparchus, whose functions are built on its own FastMath:
 * of the Java library that uses nothing but the square root, which is exact on every platform, and StrictMath. So a
 * factor is equal to the bit on every Java.
 */
final class CoverageFactor {

    /**
     * Φ(2): the two-sided probability 95.45 % for which infinitely many degrees of freedom give k = 2 exactly
     * (JCGM 100:2008, Table G.2 and G.6.4).
     */
    private static final double BELOW_TWO = 0.9772498680518208;

    /** From here on k differs from 2 by less than 3 in a million. */
    private static final double AS_GOOD_AS_INFINITE = 1e6;

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

    /** Two-sided factor for a level of confidence between 0 and 1, for example 0.95 (JCGM 100:2008, Table G.2). */
    static double twoSided(double confidence, double degreesOfFreedom) {
        return student(whole(degreesOfFreedom), (1 + confidence) / 2);
    }

    private static double whole(double degreesOfFreedom) {
        return Math.max(1, Math.floor(degreesOfFreedom));
    }

    private static double student(double degreesOfFreedom, double below) {
        return new TDistribution(degreesOfFreedom).inverseCumulativeProbability(below);
    }
}
