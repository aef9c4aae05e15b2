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
    }

    /** A type B contribution from a rectangular distribution with that half-width: u = a/√3 (JCGM 100:2008, 4.3.7). */
    public static Contribution rectangular(String name, String how, double halfWidth) {
        return new Contribution(name, Evaluation.B, how, halfWidth / Math.sqrt(3), Double.POSITIVE_INFINITY);
    }
}
