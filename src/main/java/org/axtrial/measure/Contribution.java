package org.axtrial.measure;

/**
 * One line of an uncertainty budget (JCGM 100:2008, clause 4). Spread and standard uncertainty are in the unit of the
 * measurement, so that the sensitivity coefficient is already in them.
 *
 * @param name what is uncertain, for example {@code encoder quantisation}
 * @param evaluation how it was evaluated
 * @param how one short sentence with the numbers it was made from
 * @param distribution what is assumed of the input
 * @param spread half-width of the distribution, or standard deviation of a normal one, finite, not negative
 * @param divisor what the spread is divided by to get one standard deviation, finite, positive
 * @param degreesOfFreedom positive; infinity for what is known for certain, as most of type B
 */
public record Contribution(
        String name,
        Evaluation evaluation,
        String how,
        Distribution distribution,
        double spread,
        double divisor,
        double degreesOfFreedom) {

    /** Evaluation by statistics (A) or by other knowledge (B). */
    public enum Evaluation {
        A,
        B
    }

    public Contribution {
        if (!(spread >= 0) || Double.isInfinite(spread)) {
            throw new IllegalArgumentException(
                    name + ": standard uncertainty must be finite and not negative, got " + spread);
        }
        if (!(divisor > 0) || Double.isInfinite(divisor)) {
            throw new IllegalArgumentException(name + ": divisor must be finite and positive, got " + divisor);
        }
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(name + ": degrees of freedom must be positive, got " + degreesOfFreedom);
        }
    }

    /** A contribution whose standard uncertainty is known as such. */
    public Contribution(
            String name, Evaluation evaluation, String how, double standardUncertainty, double degreesOfFreedom) {
        this(name, evaluation, how, Distribution.NORMAL, standardUncertainty, 1, degreesOfFreedom);
    }

    /** One standard deviation, in the unit of the measurement. */
    public double standardUncertainty() {
        return spread / divisor;
    }

    /** A type B contribution from a rectangular distribution with that half-width: u = a/√3 (JCGM 100:2008, 4.3.7). */
    public static Contribution rectangular(String name, String how, double halfWidth) {
        return bounded(name, how, Distribution.RECTANGULAR, halfWidth, Math.sqrt(3));
    }

    /** A type B contribution from a triangular distribution with that half-width: u = a/√6 (JCGM 100:2008, 4.3.9). */
    public static Contribution triangular(String name, String how, double halfWidth) {
        return bounded(name, how, Distribution.TRIANGULAR, halfWidth, Math.sqrt(6));
    }

    /** A type B contribution from a sine of unknown phase with that amplitude: u = a/√2. */
    public static Contribution uShaped(String name, String how, double amplitude) {
        return bounded(name, how, Distribution.U_SHAPED, amplitude, Math.sqrt(2));
    }

    /** A type B contribution from the step of a digital reading, ± q/2: u = q/√12 (JCGM 100:2008, F.2.2.1). */
    public static Contribution quantisation(String name, String how, double quantum) {
        return rectangular(name, how, quantum / 2);
    }

    /** A type B contribution from a certificate that states U with k: u = U/k (JCGM 100:2008, 4.3.3). */
    public static Contribution certificate(String name, String how, double expanded, double coverageFactor) {
        return new Contribution(
                name, Evaluation.B, how, Distribution.NORMAL, expanded, coverageFactor, Double.POSITIVE_INFINITY);
    }

    /** A type A contribution of a mean: u = s/√n with n − 1 degrees of freedom (JCGM 100:2008, 4.2.3), n ≥ 2. */
    public static Contribution repeatability(String name, String how, double standardDeviation, int n) {
        return repeatability(name, how, standardDeviation, n, n - 1);
    }

    /** As {@link #repeatability(String, String, double, int)} for values that are related to each other. */
    static Contribution repeatability(
            String name, String how, double standardDeviation, double effectiveSize, double degreesOfFreedom) {
        return new Contribution(
                name,
                Evaluation.A,
                how,
                Distribution.NORMAL,
                standardDeviation,
                Math.sqrt(effectiveSize),
                degreesOfFreedom);
    }

    /** The same contribution to a measurement in another unit, or to a result that depends on this one by a factor. */
    Contribution times(double factor) {
        return new Contribution(
                name, evaluation, how, distribution, spread * Math.abs(factor), divisor, degreesOfFreedom);
    }

    private static Contribution bounded(
            String name, String how, Distribution distribution, double halfWidth, double divisor) {
        return new Contribution(name, Evaluation.B, how, distribution, halfWidth, divisor, Double.POSITIVE_INFINITY);
    }
}
