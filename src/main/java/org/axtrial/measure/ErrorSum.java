package org.axtrial.measure;

import java.util.List;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.special.BesselJ;

/**
 * Distribution of the sum of independent errors, each with the shape that its line of the budget states: the propagation
 * of distributions (JCGM 101:2008, 5) for a sum, worked out instead of drawn at random. It is symmetric about zero.
 *
 * <p>The characteristic function of a sum is the product of those of its parts: exp(−σ²t²/2) of a normal one, sin(at)/(at) of
 * a rectangular one, (sin(at/2)/(at/2))² of a triangular one, J₀(at) of a U-shaped one. Nothing lies beyond ± L, the sum of all half-widths
 * and eight σ, so that its values φ_n at t = nπ/L are the Fourier coefficients of the density, and F(x) = 1/2 + x/2L +
 * Σ φ_n·sin(nπx/L)/(nπ).
 *
 * <p>All parts with finitely many degrees of freedom are one normal part, widened by t₉₅.₄₅(ν)/2 of their effective
 * number (JCGM 100:2008, G.4.1), so that alone it has the interval of Student's t.
 *
 * <p>Sine and exponential are those of StrictMath, so that results are equal to the bit on every Java.
 */
final class ErrorSum {

    /** A normal part has less than 10⁻¹⁵ beyond this many standard deviations. */
    private static final double NORMAL_ENDS = 8;

    /** With one rectangular part alone, which needs most, F is right to 10⁻⁶ where it is asked for. */
    private static final int MOST_TERMS = 1024;

    private static final double NEGLIGIBLE = 1e-12;

    private static final double ACCURACY = 1e-9;

    private final double limit;
    private final double[] terms;

    private ErrorSum(double limit, double[] terms) {
        this.limit = limit;
        this.terms = terms;
    }

    /** Sum of at least one part that is not zero. */
    static ErrorSum of(List<Contribution> parts) {
        double sigma = normalPart(parts);
        List<Contribution> bounded = parts.stream().filter(ErrorSum::isBounded).toList();
        double limit = NORMAL_ENDS * sigma
                + bounded.stream().mapToDouble(Contribution::spread).sum();
        double[] terms = new double[termsThatCount(sigma, limit)];
        for (int i = 0; i < terms.length; i++) {
            double t = (i + 1) * Math.PI / limit;
            double product = StrictMath.exp(-sigma * sigma * t * t / 2);
            for (Contribution part : bounded) {
                product *= characteristic(part.distribution(), part.spread() * t);
            }
            terms[i] = product / ((i + 1) * Math.PI);
        }
        return new ErrorSum(limit, terms);
    }

    /** Whether a part has ends, so that a sum with it is not normal. */
    static boolean isBounded(Contribution part) {
        return part.distribution() != Distribution.NORMAL;
    }

    /** Probability of an error not above {@code x}, 0 … 1. */
    double below(double x) {
        if (x >= limit) {
            return 1;
        }
        if (x <= -limit) {
            return 0;
        }
        double sum = 0.5 + x / (2 * limit);
        for (int i = 0; i < terms.length; i++) {
            sum += terms[i] * StrictMath.sin((i + 1) * Math.PI * x / limit);
        }
        return Math.min(1, Math.max(0, sum));
    }

    /** The error that is not exceeded with a probability above 1/2 and below 1. */
    double quantile(double probability) {
        return new BrentSolver(limit * ACCURACY).solve(1000, x -> below(x) - probability, 0, limit);
    }

    /** Where the normal part alone leaves less than 10⁻¹³ of a term, the rest is left out. */
    private static int termsThatCount(double sigma, double limit) {
        double enough = NORMAL_ENDS * limit / (Math.PI * sigma);
        return enough < MOST_TERMS ? (int) Math.ceil(enough) : MOST_TERMS;
    }

    /** Standard deviation of the normal part. */
    private static double normalPart(List<Contribution> parts) {
        UncertaintyBudget normal = new UncertaintyBudget(
                parts.stream().filter(part -> !isBounded(part)).toList(), 1);
        return normal.combined() * CoverageFactor.of(normal.effectiveDegreesOfFreedom()) / 2;
    }

    private static double characteristic(Distribution distribution, double at) {
        return switch (distribution) {
            case NORMAL -> throw new IllegalArgumentException("a normal part has no ends");
            case RECTANGULAR -> sinc(at);
            case TRIANGULAR -> sinc(at / 2) * sinc(at / 2);
            case U_SHAPED -> BesselJ.value(0, at);
        };
    }

    private static double sinc(double x) {
        return x < NEGLIGIBLE ? 1 : StrictMath.sin(x) / x;
    }
}
