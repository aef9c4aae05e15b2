package org.axtrial.measure;

import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.StandardDeviation;

/**
 * Mean and scatter of values that may be related to their neighbours, as samples of a controlled axis are.
 *
 * <p>Mean and standard deviation are corrected two-pass sums (Hipparchus). From ten values on the lag-1
 * autocorrelation r₁ = Σ(y_i − m)(y_{i+1} − m) / Σ(y_i − m)² tells how many independent values the mean is worth. The
 * values are taken as a first-order autoregressive series: n* = n·(1 − ρ)/(1 + ρ) for the mean,
 * n·(1 − ρ²)/(1 + ρ²) less one degree of freedom for the deviation (Bayley and Hammersley 1946, from memory; JCGM
 * 100:2008, 4.2.7 says only that s/√n does not hold). The deviation of related values about their own mean is low: E(s²) =
 * σ²·n·(n* − 1)/(n*·(n − 1)) (same), so that σ²/n* is s² over n′ = n·(n* − 1)/(n − 1). ρ itself is known to (1 − ρ²)/n
 * only (Bartlett 1946, from memory, as variance), which falsifies (1 + ρ)/(1 − ρ) by the variance 4/(n·(1 − ρ²)) in parts of
 * itself; as degrees of freedom (JCGM 100:2008, E.4.3: relative variance 2/ν) it is n·(1 − ρ²)/2. r₁ of a short series is low by about (1 + 4ρ)/n (Marriott and Pope 1954, from memory);
 * that is put back. A ρ that chance brings in four of five cases, and a negative one, which would make
 * the mean better than s/√n, is not used. Of fewer than ten samples nobody can tell how
 * they hang together, so that their mean is taken as no better than one of them, unless more samples of the same signal were taken
 * in the same way at another time.
 *
 * @param mean arithmetic mean
 * @param deviation experimental standard deviation, 0 for a single value
 * @param n how many values, at least 1
 * @param autocorrelation ρ, 0 … below 1; 0 for fewer than ten values
 * @param seenIn how many values ρ was seen in, {@link #KNOWN} if it is known that they have nothing to do with each other
 */
record Scatter(double mean, double deviation, int n, double autocorrelation, int seenIn) {

    /** With fewer values an autocorrelation is mostly accident. */
    static final int FEWEST_FOR_AUTOCORRELATION = 10;

    /** ρ is known to be 0. */
    static final int KNOWN = Integer.MAX_VALUE;

    /** ρ in units of its standard deviation, 1/√n for independent values, that is no sign of any: four of five of those stay below. */
    private static final double BY_CHANCE = 0.8;

    /** Values that creep all the way are worth not much more than one, but r₁ cannot tell how little. */
    private static final double MOST_AUTOCORRELATION = 0.98;

    /** Scatter of samples in the order of time, at least one. */
    static Scatter of(double[] samples) {
        return of(samples, 0, samples.length);
    }

    /** Scatter of values that are known to be independent, such as approaches that are minutes apart; at least one. */
    static Scatter ofIndependent(double[] values) {
        Scatter scatter = of(values);
        return new Scatter(scatter.mean(), scatter.deviation(), scatter.n(), 0, KNOWN);
    }

    static Scatter of(double[] values, int begin, int length) {
        double mean = new Mean().evaluate(values, begin, length);
        if (length < 2) {
            return new Scatter(mean, 0, length, 0, length);
        }
        double deviation = new StandardDeviation().evaluate(values, begin, length);
        double rho = length >= FEWEST_FOR_AUTOCORRELATION && deviation > 0
                ? corrected(lagOne(values, begin, length, mean), length)
                : 0;
        return new Scatter(mean, deviation, length, rho, length);
    }

    /**
     * The same mean and deviation, with ρ as seen in these samples and in others of the same signal: how samples hang together
     * is a matter of the drive and of the period of polling, wherever the axis stands. Each has its weight by number.
     */
    Scatter relatedAs(Scatter other) {
        if (seenIn == KNOWN || other.seenIn < FEWEST_FOR_AUTOCORRELATION || other.deviation == 0) {
            return this;
        }
        boolean tells = seenIn >= FEWEST_FOR_AUTOCORRELATION && deviation > 0;
        int together = tells ? seenIn + other.seenIn : other.seenIn;
        double rho = tells
                ? (seenIn * autocorrelation + other.seenIn * other.autocorrelation) / together
                : other.autocorrelation;
        return new Scatter(mean, deviation, n, rho, together);
    }

    private static double corrected(double lagOne, int n) {
        double rho = (n * lagOne + 1) / (n - 4.0);
        return rho * Math.sqrt(n) < BY_CHANCE ? 0 : Math.min(MOST_AUTOCORRELATION, rho);
    }

    /** Lag-1 autocorrelation as seen, −1 … 1. */
    static double lagOne(double[] values, int begin, int length, double mean) {
        double products = 0;
        double squares = 0;
        for (int i = begin; i < begin + length; i++) {
            double here = values[i] - mean;
            squares += here * here;
            if (i + 1 < begin + length) {
                products += here * (values[i + 1] - mean);
            }
        }
        return squares == 0 ? 0 : products / squares;
    }

    /** n′: the mean is as uncertain as s over the root of this, 1 … n. */
    double effectiveSize() {
        if (seenIn < FEWEST_FOR_AUTOCORRELATION) {
            return 1;
        }
        double worth = n * (1 - autocorrelation) / (1 + autocorrelation);
        return autocorrelation == 0 ? n : Math.max(1, n * (worth - 1) / (n - 1));
    }

    /** Degrees of freedom of the deviation, 1 … n − 1. */
    double degreesOfFreedom() {
        double square = autocorrelation * autocorrelation;
        return Math.max(1, n * (1 - square) / (1 + square) - 1);
    }

    /** Degrees of freedom of the uncertainty of the mean, 1 … n − 1: those of the deviation and of ρ together. */
    double freedomOfMean() {
        double square = autocorrelation * autocorrelation;
        return autocorrelation == 0 ? n - 1 : Math.max(1, 1 / (1 / degreesOfFreedom() + 2 / (seenIn * (1 - square))));
    }
}
