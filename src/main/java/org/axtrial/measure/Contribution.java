package org.axtrial.measure;

/**
 * One line of an uncertainty budget (JCGM 100:2008, clause 4).
 *
 * @param name what is uncertain, for example {@code encoder quantisation}
 * @param evaluation how it was evaluated
 * @param how one short sentence with the numbers it was made from
 * @param standardUncertainty one standard deviation, in the unit of the measurement, not negative
 * @param degreesOfFreedom infinity for type B
 */
public record Contribution(
        String name, Evaluation evaluation, String how, double standardUncertainty, double degreesOfFreedom) {

    /** Evaluation by statistics (A) or by other knowledge (B). */
    public enum Evaluation {
        A,
        B
    }

    public Contribution {
        if (!(standardUncertainty >= 0) || Double.isInfinite(standardUncertainty)) {
            throw new IllegalArgumentException(
                    name + ": standard uncertainty must be finite and not negative, got " + standardUncertainty);
        }
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(name + ": degrees of freedom must be positive, got " + degreesOfFreedom);
        }
    }

    /** A type B contribution from a rectangular distribution with that half-width: u = a/√3 (JCGM 100:2008, 4.3.7). */
    public static Contribution rectangular(String name, String how, double halfWidth) {
        return new Contribution(name, Evaluation.B, how, halfWidth / Math.sqrt(3), Double.POSITIVE_INFINITY);
    }

    /** A type B contribution from a triangular distribution with that half-width: u = a/√6 (JCGM 100:2008, 4.3.9). */
    public static Contribution triangular(String name, String how, double halfWidth) {
        return new Contribution(name, Evaluation.B, how, halfWidth / Math.sqrt(6), Double.POSITIVE_INFINITY);
    }

    /** A type B contribution from the step of a digital reading: u = q/√12 (JCGM 100:2008, F.2.2.1). */
    public static Contribution quantisation(String name, String how, double quantum) {
        return new Contribution(name, Evaluation.B, how, quantum / Math.sqrt(12), Double.POSITIVE_INFINITY);
    }

    /** A type A contribution of a mean: u = s/√n with n − 1 degrees of freedom (JCGM 100:2008, 4.2.3), n ≥ 2. */
    public static Contribution repeatability(String name, String how, double standardDeviation, int n) {
        return new Contribution(name, Evaluation.A, how, standardDeviation / Math.sqrt(n), n - 1);
    }
}
