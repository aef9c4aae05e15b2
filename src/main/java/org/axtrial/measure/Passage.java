package org.axtrial.measure;

import java.util.Optional;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * The first time at which a signal passed a level away from zero, on the straight line between the two samples around it.
 *
 * @param trace the samples
 * @param channel that passed the level
 * @param level not 0, in the unit of the signal
 * @param after index of the first sample at the level or beyond, at least 1
 */
record Passage(Trace trace, Channel channel, double level, int after) {

    /** A slope less than this part of the next one is rest. */
    private static final double AT_REST = 0.1;

    /**
     * Looks for it.
     *
     * @param level not 0, in the unit of the signal
     */
    static Optional<Passage> first(Trace trace, String signal, double level) {
        double[] x = trace.values(signal);
        for (int i = 1; i < x.length; i++) {
            if (x[i - 1] / level < 1 && x[i] / level >= 1) {
                return Optional.of(new Passage(trace, trace.channel(signal), level, i));
            }
        }
        return Optional.empty();
    }

    /** Seconds. */
    double time() {
        return onLine(after);
    }

    /**
     * Adds what makes the moment uncertain: instants of both samples, half a round trip each, rectangular, the nearer one
     * counting more; their steps, q/√12, by way of the slope (JCGM 100:2008, 5.1.2, with ∂t/∂x = 1/slope); and how far from there a bent
     * signal may have passed, by the lines through the samples before and after that interval, rectangular.
     *
     * @param name of the level
     */
    void contribute(Draft draft, String name) {
        double before = trace.time(after - 1);
        double interval = trace.time(after) - before;
        double share = (time() - before) / interval;
        draft.add(Samples.instant("instant of the sample before " + name, trace.timeHalfWidth(after - 1), 1 - share))
                .add(Samples.instant("instant of the sample after " + name, trace.timeHalfWidth(after), share))
                .add(Contribution.quantisation(
                        "quantisation at " + name,
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()) + " in both samples",
                        Math.hypot(share, 1 - share) * channel.quantum() / Math.abs(slope(after))))
                .add(Contribution.rectangular(
                        "way between the samples around " + name,
                        "samples " + Printed.brief(interval * 1e3)
                                + " ms apart; by the lines before and after it the signal may bend by "
                                + Printed.brief(bend() * 1e3) + " ms",
                        bend()));
    }

    /**
     * Half-width in seconds within which the passage is known: to where the line after leads if the signal was at rest before and may have
     * begun to move anywhere in the interval; else an even bend leaves the line between the samples by a quarter of where the lines on either
     * side lead, which is taken as a standard deviation.
     */
    private double bend() {
        boolean fromRest = after < 2 || slope(after - 1) / slope(after) < AT_REST;
        return fromRest ? away(after + 1) : Math.max(away(after - 1), away(after + 1)) * Math.sqrt(3) / 4;
    }

    /** How far from the passage the line up to a sample is at the level, within the interval; 0 if it leads elsewhere. */
    private double away(int end) {
        if (end < 1 || end >= trace.size() || slope(end) * level <= 0) {
            return 0;
        }
        double there = Math.max(trace.time(after - 1), Math.min(trace.time(after), onLine(end)));
        return Math.abs(there - time());
    }

    /** When the line through a sample and the one before it is at the level. */
    private double onLine(int end) {
        return trace.time(end - 1) + (level - trace.value(channel.name(), end - 1)) / slope(end);
    }

    private double slope(int end) {
        return (trace.value(channel.name(), end) - trace.value(channel.name(), end - 1))
                / (trace.time(end) - trace.time(end - 1));
    }
}
