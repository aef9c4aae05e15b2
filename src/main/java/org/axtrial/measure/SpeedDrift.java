package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How much a speed that should be constant creeps. */
public final class SpeedDrift {

    private SpeedDrift() {}

    /**
     * Change of the reported speed over a window: slope of a straight line by least squares times the time between the
     * first and the last sample.
     *
     * <p>Uncertainty: standard error of the slope, widened for residuals that follow each other; quantisation, triangular
     * with half-width q, because a slow drift may sit on one step at both ends, and less of noisy readings ({@link Dither}) or
     * of a drift over several steps; where samples meet those steps. Steps are not counted as scatter too, q²/12 of it is theirs.
     *
     * @param trace the samples
     * @param speed name of the speed channel
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return in the unit of the channel, signed; missing with fewer than three samples in the window
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static Measurement of(Trace trace, String speed, double from, double to) {
        Channel channel = trace.channel(speed);
        Samples.requireWindow(from, to);
        Trace window = trace.between(from, to);
        Draft draft = new Draft(
                        "speed drift",
                        "Slope of the straight line by least squares through the reported speed in the window, times the"
                                + " time from its first to its last sample.",
                        channel.unit())
                .from(window)
                .resolution(channel.quantum());
        int last = window.size() - 1;
        double time = last < 2 ? 0 : window.time(last) - window.time(0);
        if (time <= 0) {
            return draft.missing("the window holds " + window.size()
                    + " of the three samples needed; hold the speed longer or sample faster");
        }
        LineFit line = LineFit.of(window.times(), window.values(speed));
        return draft.mark("drift from", window.time(0))
                .mark("drift to", window.time(last))
                .add(Contribution.triangular(
                        "quantisation of both ends",
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()),
                        stepsLeft(line, channel.quantum(), line.slope() * time)))
                .add(new Contribution(
                        "steps as the samples meet them",
                        Contribution.Evaluation.B,
                        "of each step of a drift the last sample is on either side",
                        metSteps(line, channel.quantum(), time),
                        Double.POSITIVE_INFINITY))
                .add(line.slopeOfSeries(channel.unit(), time * noisy(line, channel.quantum())))
                .value(line.slope() * time);
    }

    /**
     * What is left because the samples meet the steps of a drift at random: of each of D steps the sample before it is early and that
     * after it late by up to the distance of samples, which of n samples leaves the error of noise q²/12 in D of them.
     */
    private static double metSteps(LineFit line, double quantum, double time) {
        double steps = quantum == 0 ? 0 : Math.abs(line.slope()) * time / quantum;
        double share = Math.min(1, steps / line.n());
        return quantum / Math.sqrt(12) * Math.sqrt(share / line.sumX()) * time;
    }

    /** Part of the scatter about the line that its steps, q²/12 of variance, do not explain: 0 … 1. */
    private static double noisy(LineFit line, double quantum) {
        double all = line.residual() * line.residual();
        return all == 0 ? 0 : Math.sqrt(Math.max(0, 1 - quantum * quantum / 12 / all));
    }

    /**
     * How far steps can falsify the slope times the window. A straight line over D steps leaves a sawtooth of D teeth, ± q/2; harmonic i
     * of it, 1/(πi), falsifies the slope by no more than 12/(2πiD), and the sum over all i is q/D.
     */
    private static double stepsLeft(LineFit line, double quantum, double drift) {
        Scatter scatter = new Scatter(0, line.residual(), line.n(), line.autocorrelation(), line.n());
        double steps = quantum == 0 ? 1 : Math.max(1, Math.abs(drift) / quantum);
        return 2 * Dither.halfWidth(scatter, quantum) / steps;
    }
}
