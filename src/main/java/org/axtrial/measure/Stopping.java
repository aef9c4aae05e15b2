package org.axtrial.measure;

import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How long and how far an axis runs on after it was told to stop. */
public final class Stopping {

    private Stopping() {}

    /**
     * Stopping time: from the stop command until the axis stays within a window about the position where it comes to rest.
     *
     * <p>Uncertainty as of {@link Settling}.
     *
     * @param trace time zero is the command to stop
     * @param position name of the position channel
     * @param window half width of standstill, in the unit of the channel, positive
     * @return seconds; missing if the record does not show the axis at rest
     * @throws IllegalArgumentException if the trace has no such channel or the window is not positive
     */
    public static Measurement time(Trace trace, String position, double window) {
        Draft draft = new Draft(
                "stopping time",
                "From the stop command to the last entry into rest position ± window, where the position stays until the"
                        + " record ends; middle between the last sample outside and the first inside.",
                Unit.SECOND);
        Measurement rest = Standstill.restPosition(trace, position);
        return rest.missing().isPresent()
                ? draft.missing(rest.missing().get())
                : Settling.measure(trace, position, rest.value(), window, 0, draft);
    }

    /**
     * Stopping distance: from where the axis was when the stop was ordered to where it comes to rest, without sign. What
     * it runs on while the order travels is part of it.
     *
     * <p>Uncertainty: quantisation at both ends (q/√12), repeatability at rest, the position between the two samples around
     * the command (a·P²/8, rectangular) and their instants, half a round trip, rectangular, times the speed there.
     *
     * @param trace time zero is the command to stop; it holds a sample before it
     * @return in the unit of the channel, not negative; missing without a sample before the command or if the record does
     *     not show the axis at rest
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement distance(Trace trace, String position) {
        Channel channel = trace.channel(position);
        Draft draft = new Draft(
                        "stopping distance",
                        "Distance from the position at the stop command, between the samples around it, to the mean"
                                + " position at rest.",
                        channel.unit())
                .from(Samples.afterCommand(trace))
                .resolution(channel.quantum());
        int next = 0;
        while (next < trace.size() && trace.time(next) < 0) {
            next++;
        }
        if (next == 0 || next == trace.size()) {
            return draft.missing(
                    "no samples on both sides of the stop command; sample before it and until the axis stands");
        }
        Measurement rest = Standstill.restPosition(trace, position);
        if (rest.missing().isPresent()) {
            return draft.missing(rest.missing().get());
        }
        double[] x = trace.values(position);
        double interval = trace.time(next) - trace.time(next - 1);
        double speed = interval > 0 ? (x[next] - x[next - 1]) / interval : 0;
        double at = x[next] - speed * trace.time(next);
        double half = Math.max(trace.timeHalfWidth(next - 1), trace.timeHalfWidth(next));
        double hidden = Math.max(Samples.hiddenBeyond(trace, x, next - 1), Samples.hiddenBeyond(trace, x, next));
        draft.mark("stop ordered", 0).step("quantisation at the command", channel);
        rest.budget().contributions().forEach(draft::add);
        return draft.add(Contribution.rectangular(
                        "position between two samples",
                        "samples " + Printed.brief(interval * 1e3) + " ms apart",
                        hidden))
                .add(Contribution.rectangular(
                        "instants of the samples",
                        "half a round trip is " + Printed.brief(half * 1e3) + " ms",
                        Math.abs(speed) * half))
                .value(Math.abs(rest.value() - at));
    }

    /**
     * Distance that a stop should take: v·t_r + v²/(2a), reaction at full speed and then an even deceleration.
     *
     * @param speed at the command, not negative
     * @param reaction seconds until the deceleration begins, not negative
     * @param deceleration speed unit per second, positive
     * @return in the unit of length of {@code speed}
     */
    public static double expectedDistance(double speed, double reaction, double deceleration) {
        if (!(speed >= 0) || !(reaction >= 0) || !(deceleration > 0)) {
            throw new IllegalArgumentException("a stop needs a speed and a reaction time of 0 or more and a positive"
                    + " deceleration, got " + speed + ", " + reaction + ", " + deceleration);
        }
        return speed * reaction + speed * speed / (2 * deceleration);
    }
}
