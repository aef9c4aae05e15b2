package org.axtrial.measure;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/**
 * What the step of a digital signal leaves in a mean. Without noise all readings sit on one step and the mean is no better than
 * one of them: ± q/2. Noise of a standard deviation σ puts the readings on several steps, and the mean finds its place between them:
 * the error that is left is a wave over the true value, of which harmonic i has the amplitude q/(πi)·exp(−2π²i²σ²/q²) (Widrow and
 * Kollár, Quantization Noise, 2008, from memory), normal noise taken.
 */
final class Dither {

    /** With fewer readings nothing is said of their noise. */
    private static final int FEWEST = 5;

    /** Probability with which the noise is at least what is taken of it. */
    private static final double AT_LEAST = 0.75;

    /** Less than this part of a step is not worth a line. */
    private static final double NEGLIGIBLE = 1e-3;

    private static final int HARMONICS = 200;

    private Dither() {}

    /**
     * Half-width of the rectangular distribution that has the same standard deviation as the error that is left, from 0 to half a
     * step. Of the scatter only so much is taken as noise as is there with 75 % (chi-square distribution), without
     * what the steps themselves bring, q²/12, and without what each reading keeps of the one before.
     *
     * @param scatter of the readings that the mean was made of
     * @param quantum the step q, not negative, in the unit of the scatter
     */
    static double halfWidth(Scatter scatter, double quantum) {
        if (scatter.n() < FEWEST || quantum == 0) {
            return quantum / 2;
        }
        double freedom = scatter.degreesOfFreedom();
        double surely = freedom / new ChiSquaredDistribution(freedom).inverseCumulativeProbability(AT_LEAST);
        double own = (1 - scatter.autocorrelation()) * scatter.deviation() * scatter.deviation() * surely;
        double noise = own / (quantum * quantum) - 1.0 / 12;
        double left = noise <= 0 ? 0.5 : Math.sqrt(3 * variance(noise));
        return left < NEGLIGIBLE ? 0 : quantum * left;
    }

    /** Mean square of the error that is left, in steps; 1/12 without noise. */
    private static double variance(double noise) {
        double sum = 0;
        for (int i = HARMONICS; i >= 1; i--) {
            sum += StrictMath.exp(-4 * Math.PI * Math.PI * i * i * noise) / (2 * Math.PI * Math.PI * i * i);
        }
        return sum;
    }
}
