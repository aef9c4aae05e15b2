package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How far an axis went beyond its target. */
public final class Overshoot {

    private static final String DEFINITION =
            "Largest sampled position beyond the target in the direction of travel after the command; 0 when none.";

    private Overshoot() {}

    /**
     * Overshoot of a move.
     *
     * <p>Uncertainty: quantisation (q/√12), noise of a single sample, and what the peak may hide between samples: a·P²/8 with the acceleration
     * estimated from second differences, around the peak or in a gap where a higher one may lie, two standard deviations wide, less
     * what noise and steps alone show of bends. The hidden part is one-sided (the true peak is never lower than a sample).
     *
     * @param trace time zero is the command
     * @param position name of the position channel
     * @param start position before the command, in the unit of the channel, finite
     * @param target ordered position, in the unit of the channel, finite
     * @return in the unit of the channel, not negative; AT_LEAST if the record ends while the position still grows
     *     beyond the target, or holds one or two samples; missing without a sample after the command or without a direction
     * @throws IllegalArgumentException if the trace has no such channel or a number is not finite
     */
    public static Measurement of(Trace trace, String position, double start, double target) {
        Channel channel = trace.channel(position);
        double direction = Math.signum(
                Samples.requireFinite("the target", target) - Samples.requireFinite("the start position", start));
        Trace after = Samples.afterCommand(trace);
        Draft draft =
                new Draft("overshoot", DEFINITION, channel.unit()).from(after).resolution(channel.quantum());
        if (after.size() == 0) {
            return draft.missing("no sample was taken after the command; record until the axis stands");
        }
        if (direction == 0) {
            return draft.missing("the target is the start, so there is no direction to overshoot in");
        }
        double[] beyond = after.values(position);
        for (int i = 0; i < beyond.length; i++) {
            beyond[i] = direction * (beyond[i] - target);
        }
        int peak = Samples.largest(beyond);
        double noise = Samples.noise(beyond, channel.quantum());
        Samples.Hidden hidden = Samples.hiddenAbove(after, beyond, beyond, peak)
                .without(Math.hypot(noise, channel.quantum() / Math.sqrt(12)));
        double seen = beyond[peak] > Samples.ROUNDING * channel.quantum() ? beyond[peak] : 0;
        double above = hidden.above();
        draft.step("quantisation", channel)
                .add(new Contribution(
                        "noise of a single sample",
                        Contribution.Evaluation.A,
                        "s = " + Printed.brief(noise, channel.unit()) + " by third differences, without the steps",
                        noise,
                        Math.max(1, Math.min(Rest.MOST, beyond.length) / 3)))
                .hiddenPeak(hidden, Math.max(0, Math.min(above, beyond[peak] + above)));
        boolean tooFew = beyond.length < Samples.SHOW_CURVATURE;
        if (seen == 0) {
            return draft.value(0, tooFew ? Measurement.Bound.AT_LEAST : Measurement.Bound.EXACT);
        }
        draft.mark("peak", after.time(peak));
        boolean growing = peak == beyond.length - 1;
        return draft.value(seen, growing || tooFew ? Measurement.Bound.AT_LEAST : Measurement.Bound.EXACT);
    }
}
