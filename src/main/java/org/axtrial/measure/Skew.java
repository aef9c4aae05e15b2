package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How far two axes that move together run apart. */
public final class Skew {

    private static final String DEFINITION = "Largest difference between the displacements of the two axes at the same"
            + " moment, whatever its sign, counted from where both stood before the commands; the position of the second"
            + " axis is interpolated to the moments of the samples of the first.";

    /** A sample on either side of a moment is needed to interpolate, and a place to count from. */
    private static final int LEAST_SAMPLES = 2;

    private Skew() {}

    /**
     * Peak skew of two axes over the time in which both were sampled.
     *
     * <p>The time stamps of both traces must come from one clock; the commands need not have gone out at the same moment,
     * and the samples need not lie beside each other. Uncertainty: for each axis two quantised readings, triangular with
     * half-width q, and half a round trip times its speed at the peak, rectangular; the second position between its
     * samples and the peak between samples, a·P²/8 each, rectangular, with the acceleration from second differences. How
     * long a drive holds a position before it replies is not in it.
     *
     * @param first trace of one axis; marks and samples are on its time axis
     * @param second trace of the other axis, whose unit is of the same kind
     * @param position name of the position channel of both
     * @return in the unit of the first axis, not negative; AT_LEAST if the record ends at the peak; missing if the two were
     *     not sampled at the same time from before both commands on
     * @throws IllegalArgumentException if a trace has no such channel, or the units cannot be converted
     */
    public static Measurement peak(Trace first, Trace second, String position) {
        Channel channel = first.channel(position);
        Channel other = second.channel(position);
        double factor = other.unit().convert(1, channel.unit());
        double secondCommand = (second.originNanos() - first.originNanos()) / 1e9;
        Trace aligned = second.withZeroAt(-secondCommand);
        Draft draft = new Draft("peak skew", DEFINITION, channel.unit());
        Trace common = aligned.size() < LEAST_SAMPLES
                ? first.between(1, 0)
                : first.between(aligned.time(0), aligned.time(aligned.size() - 1));
        if (common.size() < LEAST_SAMPLES || common.time(0) > Math.min(0, secondCommand)) {
            return draft.missing("the two axes were not both sampled from before the commands on, so that there is no"
                    + " place to count from; sample both while they still stand");
        }
        double[] values = aligned.values(position);
        for (int i = 0; i < values.length; i++) {
            values[i] *= factor;
        }
        double[] apart = common.values(position);
        for (int i = 0; i < apart.length; i++) {
            apart[i] -= interpolated(aligned, values, common.time(i));
        }
        int peak = sinceStart(apart, Samples.ROUNDING * Math.max(channel.quantum(), other.quantum() * factor));
        return budget(draft.from(common), common, aligned, values, position, peak, other.quantum() * factor)
                .mark("peak skew", common.time(peak))
                .hiddenPeak(Samples.hiddenBeyond(common, apart, peak), Samples.hiddenBeyond(common, apart, peak))
                .value(Math.abs(apart[peak]), bound(apart, peak));
    }

    /**
     * Makes the differences start at 0, and returns where they are largest; of those that only rounding tells apart, the
     * first, so that a steady skew is not taken for one that still grows.
     */
    private static int sinceStart(double[] apart, double rounding) {
        double start = apart[0];
        int peak = 0;
        for (int i = 0; i < apart.length; i++) {
            apart[i] -= start;
            peak = Math.abs(apart[i]) > Math.abs(apart[peak]) + rounding ? i : peak;
        }
        return peak;
    }

    private static Measurement.Bound bound(double[] apart, int peak) {
        boolean growing = peak == apart.length - 1;
        return growing ? Measurement.Bound.AT_LEAST : Measurement.Bound.EXACT;
    }

    private static Draft budget(
            Draft draft, Trace first, Trace second, double[] values, String position, int peak, double quantum) {
        Channel channel = first.channel(position);
        int before = before(second, first.time(peak));
        double between = Math.max(
                Samples.hiddenBeyond(second, values, before), Samples.hiddenBeyond(second, values, before + 1));
        double half = Math.max(second.timeHalfWidth(before), second.timeHalfWidth(before + 1));
        draft.resolution(Math.max(channel.quantum(), quantum))
                .add(readings("readings of the first axis", channel.quantum(), channel))
                .add(readings("readings of the second axis", quantum, channel))
                .add(instant(
                        "moment of the first axis",
                        first.timeHalfWidth(peak),
                        speed(first, first.values(position), peak)))
                .add(instant(
                        "moment of the second axis",
                        half,
                        Math.max(speed(second, values, before), speed(second, values, before + 1))))
                .add(Contribution.rectangular(
                        "second axis between its samples",
                        "the position may lie beside the straight line by " + Printed.brief(between, channel.unit()),
                        between));
        return draft;
    }

    private static Contribution readings(String name, double quantum, Channel channel) {
        return Contribution.triangular(
                name, "start and peak, one step is " + Printed.brief(quantum, channel.unit()), quantum);
    }

    private static Contribution instant(String name, double halfWidth, double speed) {
        return Contribution.rectangular(
                name, "half a round trip of " + Printed.brief(halfWidth * 1e3) + " ms", halfWidth * speed);
    }

    /** The sample at or before a moment that lies inside the trace, and never the last one. */
    private static int before(Trace trace, double time) {
        int before = 0;
        while (before < trace.size() - 2 && trace.time(before + 1) <= time) {
            before++;
        }
        return before;
    }

    private static double interpolated(Trace trace, double[] values, double time) {
        int before = before(trace, time);
        double span = trace.time(before + 1) - trace.time(before);
        double part = span > 0 ? (time - trace.time(before)) / span : 1;
        return values[before] + part * (values[before + 1] - values[before]);
    }

    /** The faster of the two speeds beside a sample, without sign. */
    private static double speed(Trace trace, double[] values, int i) {
        double fastest = 0;
        for (int from = Math.max(0, i - 1); from <= Math.min(values.length - 2, i); from++) {
            double span = trace.time(from + 1) - trace.time(from);
            fastest = span > 0 ? Math.max(fastest, Math.abs(values[from + 1] - values[from]) / span) : fastest;
        }
        return fastest;
    }
}
