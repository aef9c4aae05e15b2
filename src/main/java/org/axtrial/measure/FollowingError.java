package org.axtrial.measure;

import org.axtrial.trace.Trace;

/** How far an axis lags behind its demand: demand minus actual position. */
public final class FollowingError {

    private FollowingError() {}

    /**
     * Largest size of the following error after the command: as the drive latched it, or else of the samples.
     *
     * <p>Uncertainty: quantisation (q/√12), and for samples a·P²/8 for a peak between them, with a from second differences.
     *
     * @param trace time zero is the command
     * @param channel name of the following-error channel
     * @return in the unit of the channel, not negative; missing without a sample after the command
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement peak(Trace trace, String channel) {
        return Latched.preferred(
                trace,
                channel,
                "Largest size of demand minus actual position that the drive latched, from just before the command to just"
                        + " after the last sample.",
                Peak.of(
                        trace,
                        "peak following error",
                        "Largest size of demand minus actual position in the samples after the command.",
                        channel));
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
        return SteadyMean.of(
                trace,
                channel,
                from,
                to,
                "steady following error",
                "Mean of demand minus actual position in the samples of the window.");
    }
}
