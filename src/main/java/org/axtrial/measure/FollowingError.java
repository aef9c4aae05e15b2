package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.StandardDeviation;

/** How far an axis lags behind its demand: demand minus actual position. */
public final class FollowingError {

    private FollowingError() {}

    /**
     * Largest size of the following error after the command.
     *
     * <p>Uncertainty: quantisation (q/√12) and a·P²/8 for a peak between samples, with a from second differences.
     *
     * @param trace time zero is the command
     * @param channel name of the following-error channel
     * @return in the unit of the channel, not negative; missing without a sample after the command
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement peak(Trace trace, String channel) {
        return Peak.of(
                trace,
                "peak following error",
                "Largest size of demand minus actual position in the samples after the command.",
                channel);
    }

    /**
     * Mean following error while the speed is constant; positive when the axis lags in positive travel.
     *
     * <p>Uncertainty: quantisation (q/√12, not reduced by the mean, because a steady error may sit on one step) and
     * repeatability (s/√n).
     *
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return in the unit of the channel; missing with fewer than two samples in the window
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static Measurement steady(Trace trace, String channel, double from, double to) {
        Channel error = trace.channel(channel);
        Samples.requireWindow(from, to);
        Trace window = trace.between(from, to);
        Draft draft = new Draft(
                        "steady following error",
                        "Mean of demand minus actual position in the samples of the window.",
                        error.unit())
                .from(window)
                .resolution(error.quantum());
        if (window.size() < 2) {
            return draft.missing("the window holds " + window.size()
                    + " of the two samples needed; hold the speed longer or sample faster");
        }
        double[] values = window.values(channel);
        double deviation = new StandardDeviation().evaluate(values);
        return draft.mark("steady from", window.time(0))
                .mark("steady to", window.time(window.size() - 1))
                .add(Contribution.quantisation(
                        "quantisation", "one step is " + Printed.brief(error.quantum(), error.unit()), error.quantum()))
                .add(Contribution.repeatability(
                        "repeatability",
                        "s = " + Printed.brief(deviation, error.unit()) + " of " + values.length + " samples",
                        deviation,
                        values.length))
                .value(new Mean().evaluate(values));
    }
}
