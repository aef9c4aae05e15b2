package org.axtrial.measure;

import org.axtrial.trace.Trace;

/** The speed that the drive itself reports, as against {@link MeanSpeed}, which comes from displacement over time. */
public final class ReportedSpeed {

    private ReportedSpeed() {}

    /**
     * Mean of the reported speed while it is constant.
     *
     * <p>Uncertainty: quantisation (q/√12, not reduced by the mean, because a steady speed may sit on one step) and
     * repeatability (s/√n). What the drive's own filter and scale do to the signal is not in it.
     *
     * @param trace time zero is the command
     * @param speed name of the speed channel
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return in the unit of the channel, signed; missing with fewer than two samples in the window
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static Measurement of(Trace trace, String speed, double from, double to) {
        return SteadyMean.of(
                trace,
                speed,
                from,
                to,
                "reported speed",
                "Mean of the speed that the drive itself reports in the samples of the window.");
    }
}
