package org.axtrial.measure;

import org.axtrial.quantity.Unit;
import org.hipparchus.stat.descriptive.moment.Mean;

/**
 * A straight line through points by least squares, y = intercept + slope · x. Sums are taken about the means, and the
 * residuals one by one, because a difference of large sums would lose the digits of a good fit.
 *
 * @param intercept at x = 0
 * @param slope dy/dx
 * @param interceptError standard error of the intercept
 * @param slopeError standard error of the slope
 * @param residual standard deviation about the line, n − 2 degrees of freedom
 * @param n number of points, at least 3
 * @param sumX Σ(x − x̄)²
 * @param autocorrelation ρ of the residuals as in {@link Scatter}, in the order of the points
 */
record LineFit(
        double intercept,
        double slope,
        double interceptError,
        double slopeError,
        double residual,
        int n,
        double sumX,
        double autocorrelation) {

    /** Fits at least three points whose x are not all the same. */
    static LineFit of(double[] x, double[] y) {
        int n = x.length;
        double meanX = new Mean().evaluate(x);
        double meanY = new Mean().evaluate(y);
        double sumX = 0;
        double products = 0;
        for (int i = 0; i < n; i++) {
            sumX += (x[i] - meanX) * (x[i] - meanX);
            products += (x[i] - meanX) * (y[i] - meanY);
        }
        double slope = products / sumX;
        double[] residuals = new double[n];
        double squares = 0;
        for (int i = 0; i < n; i++) {
            residuals[i] = y[i] - meanY - slope * (x[i] - meanX);
            squares += residuals[i] * residuals[i];
        }
        double residual = Math.sqrt(squares / (n - 2));
        return new LineFit(
                meanY - slope * meanX,
                slope,
                residual * Math.sqrt(1.0 / n + meanX * meanX / sumX),
                residual / Math.sqrt(sumX),
                residual,
                n,
                sumX,
                Scatter.of(residuals).autocorrelation());
    }

    /**
     * What the scatter about the line of samples in the order of time says of the slope, times {@code over}.
     *
     * @param unit of y
     */
    Contribution slopeOfSeries(Unit unit, double over) {
        return new Contribution(
                "slope of the line",
                Contribution.Evaluation.A,
                "s = " + Printed.brief(residual, unit) + " about the line through " + n + " samples",
                slopeErrorOfSeries() * over,
                freedomOfSeries());
    }

    double freedom() {
        return n - 2;
    }

    /**
     * Standard error of the slope when each residual is related to the one before: √λ times that of independent ones, λ =
     * (1 + ρ)/(1 − ρ), as for a mean (common practice). The line takes λ degrees of freedom for each of its two constants
     * from such a series, where it takes one from independent values, so that the residuals are low by (n − 2λ)/(n − 2).
     */
    double slopeErrorOfSeries() {
        double widening = (1 + autocorrelation) / (1 - autocorrelation);
        double left = Math.max(1, n - 2 * widening);
        return slopeError * Math.sqrt(widening * (n - 2) / left);
    }

    /** Degrees of freedom of that error, of residuals and ρ together as in {@link Scatter}, at least 1. */
    double freedomOfSeries() {
        double square = autocorrelation * autocorrelation;
        double ofResiduals = Math.max(1, n * (1 - square) / (1 + square) - 2);
        return autocorrelation == 0 ? n - 2 : Math.max(1, 1 / (1 / ofResiduals + 2 / (n * (1 - square))));
    }
}
