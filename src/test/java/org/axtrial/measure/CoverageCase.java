package org.axtrial.measure;

import java.util.random.RandomGenerator;

/**
 * One row of the study of coverage: a quantity under stated conditions, and what is demanded of its interval.
 *
 * @param quantity what is measured
 * @param conditions of the trials, short
 * @param path where the truth and the samples come from
 * @param demand what the share of intervals that hold the truth must be
 * @param remark why it may be more than 97 %; empty when it must not
 * @param experiment one trial
 */
record CoverageCase(
        String quantity, String conditions, Path path, Demand demand, String remark, Experiment experiment) {

    /** Where samples and truth come from. */
    enum Path {
        ANALYTIC("analytic"),
        SIMULATED("simulated drive");

        final String printed;

        Path(String printed) {
            this.printed = printed;
        }
    }

    /** What the share of intervals that hold the truth must be, as parts of one. */
    enum Demand {
        BAND(0.94, 0.97),
        AT_LEAST(0.94, 1);

        final double low;
        final double high;

        Demand(double low, double high) {
            this.low = low;
            this.high = high;
        }
    }

    /** One motion, measured, with what is true of it. */
    @FunctionalInterface
    interface Experiment {
        Trial run(RandomGenerator random);
    }

    /**
     * Outcome of one trial.
     *
     * @param truth in the unit of the measurement
     */
    record Trial(double truth, Measurement measured) {}

    /** A case whose interval should hold the truth as often as it says. */
    static CoverageCase band(String quantity, String conditions, Experiment experiment) {
        return new CoverageCase(quantity, conditions, Path.ANALYTIC, Demand.BAND, "", experiment);
    }

    /** A case whose interval is wider than it must be, for the reason given. */
    static CoverageCase wide(String quantity, String conditions, String why, Experiment experiment) {
        return new CoverageCase(quantity, conditions, Path.ANALYTIC, Demand.AT_LEAST, why, experiment);
    }

    CoverageCase simulated() {
        return new CoverageCase(quantity, conditions, Path.SIMULATED, demand, remark, experiment);
    }

    String name() {
        return quantity + ", " + conditions;
    }
}
