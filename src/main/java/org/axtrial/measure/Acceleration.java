package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/** How fast an axis gains or loses speed on a ramp. */
public final class Acceleration {

    /** Part of the change of speed that is left out at both ends, where jerk rounds the ramp (IEEE 181, from memory). */
    private static final double LEFT_OUT = 0.1;

    /** A scatter that is exceeded with all but this probability is no accident. */
    private static final double BY_CHANCE = 0.05;

    private static final int FEWEST = 3;

    private Acceleration() {}

    /**
     * Size of the slope of the reported speed between 10 % and 90 % of a change of speed, by least squares; negative only
     * if the speed went the other way. The ramp is the first passage from the one level to the other.
     *
     * <p>Uncertainty, with Sₓₓ = Σ(t − t̄)²: standard error of the slope, widened for residuals that follow each other; what
     * quantisation q/√12 of the speed and instants of the samples, half a round trip each, rectangular, times the slope, are more than the
     * scatter about the line shows, over √Sₓₓ. What the drive's own filter does to the signal is not in it; a delay alone changes no slope.
     *
     * @param trace the samples; time zero is the command
     * @param speed name of the speed channel
     * @param before speed before the ramp, in the unit of the channel, finite
     * @param after speed after it, finite and different
     * @return in the unit of the channel per second; missing if fewer than three samples lie on the ramp
     * @throws IllegalArgumentException if the trace has no such channel, its unit is none of speed, or the speeds are
     *     the same
     */
    public static Measurement of(Trace trace, String speed, double before, double after) {
        Channel channel = trace.channel(speed);
        double step = Samples.requireFinite("the speed after the ramp", after)
                - Samples.requireFinite("the speed before the ramp", before);
        if (step == 0) {
            throw new IllegalArgumentException("a ramp needs two different speeds, got " + before + " twice");
        }
        Trace ordered = Samples.afterCommand(trace);
        Draft draft = new Draft(
                        Math.abs(after) < Math.abs(before) ? "deceleration" : "acceleration",
                        "Size of the slope of the straight line by least squares through the reported speed from 10 % to 90 % of its"
                                + " change.",
                        channel.unit().perSecond())
                .from(ordered);
        double[] share = ordered.values(speed);
        for (int i = 0; i < share.length; i++) {
            share[i] = (share[i] - before) / step;
        }
        int end = first(share, 1 - LEFT_OUT, 0);
        int begin = end < 0 ? -1 : lastBelow(share, end);
        if (end < 0 || end - begin - 1 < FEWEST) {
            return draft.missing(
                    end < 0
                            ? "the speed did not reach 90 % of the change; record the whole ramp"
                            : "the ramp holds " + (end - begin - 1) + " of the " + FEWEST
                                    + " samples needed; sample faster or take a longer ramp");
        }
        Trace ramp = ordered.between(ordered.time(begin + 1), ordered.time(end - 1));
        return fitted(draft.from(ramp), ramp, channel, Math.signum(step));
    }

    private static Measurement fitted(Draft draft, Trace ramp, Channel channel, double direction) {
        LineFit line = LineFit.of(ramp.times(), ramp.values(channel.name()));
        double spread = Math.sqrt(line.sumX());
        double half = Samples.usualHalfWidth(ramp);
        return draft.resolution(channel.quantum() / spread)
                .mark("ramp from", ramp.time(0))
                .mark("ramp to", ramp.time(ramp.size() - 1))
                .add(line.slopeOfSeries(channel.unit(), 1))
                .add(new Contribution(
                        "steps and instants that the line does not show",
                        Contribution.Evaluation.B,
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()) + ", half a round trip about "
                                + Printed.brief(half * 1e3) + " ms",
                        unseen(line, channel.quantum(), half) / spread,
                        Double.POSITIVE_INFINITY))
                .value(direction * line.slope());
    }

    /**
     * Steps and instants falsify every sample anew, so that they are in the scatter about the line; counted beside it they would
     * count twice. Only where the scatter is less than chance leaves of them in one of twenty cases, as where steps and samples keep
     * time with each other, the rest of their variance is added.
     */
    private static double unseen(LineFit line, double quantum, double half) {
        double instants = line.slope() * half;
        double known = quantum * quantum / 12 + instants * instants / 3;
        double shown = line.residual() * line.residual();
        double byChance = new ChiSquaredDistribution(line.freedom()).inverseCumulativeProbability(BY_CHANCE);
        return shown * line.freedom() < byChance * known ? Math.sqrt(known - shown) : 0;
    }

    /** First sample from {@code begin} on that has reached the share; −1 if none. */
    private static int first(double[] share, double level, int begin) {
        for (int i = begin; i < share.length; i++) {
            if (share[i] > level) {
                return i;
            }
        }
        return -1;
    }

    /** Last sample before {@code end} that still lies below the lower level; −1 if none. */
    private static int lastBelow(double[] share, int end) {
        int i = end - 1;
        while (i >= 0 && share[i] >= LEFT_OUT) {
            i--;
        }
        return i;
    }
}
