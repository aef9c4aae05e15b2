package org.axtrial.measure;

import java.util.Optional;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * The first time at which a signal passed a level away from zero, on the straight line between the two samples around it.
 *
 * @param trace the samples
 * @param channel that passed the level
 * @param after index of the first sample at the level or beyond
 * @param share of the way from the sample before to that one at which the level lies, above 0, at most 1
 * @param slope of the line, signal unit per second, not 0
 */
record Passage(Trace trace, Channel channel, int after, double share, double slope) {

    /**
     * Looks for it.
     *
     * @param level not 0, in the unit of the signal
     */
    static Optional<Passage> first(Trace trace, String signal, double level) {
        double[] x = trace.values(signal);
        for (int i = 1; i < x.length; i++) {
            double before = x[i - 1] / level;
            double now = x[i] / level;
            if (before < 1 && now >= 1) {
                double slope = (x[i] - x[i - 1]) / (trace.time(i) - trace.time(i - 1));
                return Optional.of(new Passage(trace, trace.channel(signal), i, (1 - before) / (now - before), slope));
            }
        }
        return Optional.empty();
    }

    /** Seconds. */
    double time() {
        return trace.time(after - 1) + share * (trace.time(after) - trace.time(after - 1));
    }

    /**
     * Adds what makes the moment uncertain: instants of both samples, half a round trip each, rectangular, the nearer one
     * counting more; by way of the slope (JCGM 100:2008, 5.1.2, with ∂t/∂x = 1/slope) their steps, q/√12, and how far a
     * bent signal leaves the straight line, ½·|x″|·d·e at the distances d and e from the samples, as a standard deviation.
     *
     * @param level its name
     */
    void contribute(Draft draft, String level) {
        double interval = trace.time(after) - trace.time(after - 1);
        double apart = share * (1 - share) * interval * interval;
        double bent = Samples.largestCurvature(trace, trace.values(channel.name()), after - 1) * apart / 2;
        draft.add(instant("instant of the sample before " + level, after - 1, 1 - share))
                .add(instant("instant of the sample after " + level, after, share))
                .add(Contribution.quantisation(
                        "quantisation at " + level,
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()) + " in both samples",
                        Math.hypot(share, 1 - share) * channel.quantum() / Math.abs(slope)))
                .add(new Contribution(
                        "way between the samples around " + level,
                        Contribution.Evaluation.B,
                        "samples " + Printed.brief(interval * 1e3) + " ms apart",
                        bent / Math.abs(slope),
                        Double.POSITIVE_INFINITY));
    }

    private Contribution instant(String name, int sample, double weight) {
        double half = trace.timeHalfWidth(sample);
        return Contribution.rectangular(
                name, "half a round trip is " + Printed.brief(half * 1e3) + " ms", weight * half);
    }
}
