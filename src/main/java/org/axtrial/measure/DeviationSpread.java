package org.axtrial.measure;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/**
 * How well a standard deviation s with ν degrees of freedom is known. s/√(2ν) (JCGM 100:2008, E.4.3) is right for many
 * values only: of five, s ± k·s/√8 would hold the true deviation σ in no more than 91 of a hundred cases, because ν·s²/σ²
 * follows the chi-square distribution, which is skew (NIST/SEMATECH e-Handbook 7.2.3.1). Here s ± h·s is made so wide that it
 * holds σ with 95.45 %: F(ν/(1 − h)²) − F(ν/(1 + h)²), F the distribution function, no upper term for h of 1 or more.
 */
final class DeviationSpread {

    /** From here on s/√(2ν) differs by less than a percent. */
    private static final double MANY = 1000;

    private static final int HALVINGS = 60;

    /** Beyond what one degree of freedom asks for, 16.5. */
    private static final double WIDEST = 32;

    private DeviationSpread() {}

    /** Standard uncertainty over s that gives U = h·s with the coverage factor of ν degrees of freedom, 1 or more. */
    static double relative(double freedom) {
        if (freedom > MANY) {
            return 1 / Math.sqrt(2 * freedom);
        }
        ChiSquaredDistribution chi = new ChiSquaredDistribution(freedom);
        double low = 0;
        double high = WIDEST;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (level(chi, freedom, middle) < CoverageFactor.LEVEL) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high / CoverageFactor.of(freedom);
    }

    private static double level(ChiSquaredDistribution chi, double freedom, double h) {
        double above = h < 1 ? chi.cumulativeProbability(freedom / ((1 - h) * (1 - h))) : 1;
        return above - chi.cumulativeProbability(freedom / ((1 + h) * (1 + h)));
    }
}
