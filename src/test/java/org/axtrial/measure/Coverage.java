package org.axtrial.measure;

import java.util.Arrays;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * What came out of the trials of one case.
 *
 * @param trials that gave an exact value
 * @param without that gave none, or a bound
 * @param covered how many intervals value ± U hold the truth
 * @param needed part of U that 95.45 % of the errors stay within; 1 is just right, less is wider than needed
 */
record Coverage(int trials, int without, int covered, double needed) {

    /** Share for which U is made: Φ(2) − Φ(−2). */
    static final double STATED = 0.9545;

    /** Differences below this share of U come from binary arithmetic. */
    private static final double ROUNDING = 1e-9;

    static Coverage of(CoverageCase test, int trials) {
        // The seed hangs on the name, so that a new case leaves the numbers of the others as they are.
        SplittableRandom random = new SplittableRandom(test.name().hashCode());
        double[] errors = new double[trials];
        int valued = 0;
        int covered = 0;
        for (int i = 0; i < trials; i++) {
            CoverageCase.Trial trial = test.experiment().run(random);
            Measurement measured = trial.measured();
            if (measured.missing().isPresent() || measured.bound() != Measurement.Bound.EXACT) {
                continue;
            }
            double error = Math.abs(measured.value() - trial.truth());
            errors[valued++] = error == 0 ? 0 : error / measured.expandedUncertainty();
            if (error <= measured.expandedUncertainty() * (1 + ROUNDING) + ROUNDING * ROUNDING) {
                covered++;
            }
        }
        double[] sorted = Arrays.copyOf(errors, valued);
        Arrays.sort(sorted);
        double needed = valued == 0 ? 0 : sorted[(int) Math.min(valued - 1, Math.floor(STATED * valued))];
        return new Coverage(valued, trials - valued, covered, needed);
    }

    double share() {
        return trials == 0 ? 0 : (double) covered / trials;
    }

    /** One standard deviation of the share by chance, binomial at the stated 95.45 %. */
    double chance() {
        return Math.sqrt(STATED * (1 - STATED) / Math.max(1, trials));
    }

    /** Whether the share lies in what is demanded, widened by so many standard deviations of chance. */
    boolean meets(CoverageCase.Demand demand, double deviations) {
        return share() >= demand.low - deviations * chance() && share() <= demand.high + deviations * chance();
    }

    /** The line of the table. */
    String line(CoverageCase test) {
        return String.format(
                Locale.ROOT,
                "| %s | %s | %s | %d | %.1f | %.2f | %s |",
                test.quantity(),
                test.conditions(),
                test.path().printed,
                trials,
                100 * share(),
                needed,
                switch (test.demand()) {
                    case BAND -> "94 … 97";
                    case AT_LEAST -> "at least 94: " + test.remark();
                });
    }
}
