package org.axtrial.measure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How long and how far an axis runs on after it was told to stop. */
public final class Stopping {

    /** A tail that creeps by less than this part of the window does not blur the time of the last entry. */
    private static final double CREEP_IN_WINDOW = 4;

    /** A tail that creeps by more than this part of the distance is no end of it. */
    private static final double CREEP_IN_DISTANCE = 0.01;

    private static final String TO_REST =
            " to the last entry into rest position ± window, where the position stays until the"
                    + " record ends; middle between the last sample outside and the first inside.";

    private static final String NOT_THE_DEVICE =
            " The time between the device and that sign is not in it, because no sample shows it.";

    private Stopping() {}

    /**
     * Where the axis came to rest. The tail of a stop dies away for long; what it still creeps over the last samples is
     * taken as the half-width of what is yet to come, which holds for a tail that at least halves in that time.
     *
     * @param creep change of position over the last samples if that is more than noise, not negative
     */
    private record End(Rest rest, Unit unit, double last, double creep) {

        static End of(Trace trace, String position) {
            Trace after = Samples.afterCommand(trace);
            Rest rest = Rest.atEnd(after, position);
            int last = after.size() - 1;
            double creep = rest.moving() ? Math.abs(rest.speed()) * (after.time(last) - after.time(rest.first())) : 0;
            return new End(rest, trace.channel(position).unit(), after.value(position, last), creep);
        }

        double position() {
            return creep > 0 ? last : rest.mean();
        }

        /** Within which the position is known but for scatter. */
        double halfWidth(Channel channel) {
            return creep > 0 ? creep : Dither.halfWidth(rest.scatter(), channel.quantum());
        }

        Optional<String> missing(double allowed) {
            return creep > allowed
                    ? Optional.of("the axis still moved when the record ended, by " + Printed.brief(rest.speed(), unit)
                            + " in a second; record until it stands")
                    : Optional.empty();
        }

        /** Why there is no end at all: too few samples after the command. */
        static Optional<String> tooFew(Trace trace) {
            int samples = Samples.afterCommand(trace).size();
            return samples >= Rest.FEWEST
                    ? Optional.empty()
                    : Optional.of("the record holds " + samples + " of the " + Rest.FEWEST
                            + " samples that show an axis at rest; record longer or sample faster");
        }

        void contribute(Draft draft, Channel channel) {
            if (creep > 0) {
                draft.step("quantisation at the end", channel)
                        .add(Contribution.rectangular(
                                "creep at the end",
                                "the last samples still crept by " + Printed.brief(creep, unit),
                                creep));
            } else {
                rest.scatter(draft.stepOfMean("quantisation at the end", channel, rest.scatter()));
            }
        }
    }

    /**
     * Stopping time: from the stop command until the axis stays within a window about the position where it comes to rest.
     *
     * <p>Uncertainty as of {@link Settling}, and half a step of the rest position at the speed of entry. A tail that still creeps by less than a quarter of the window is taken for
     * rest.
     *
     * @param trace time zero is the command to stop
     * @param position name of the position channel
     * @param window half width of standstill, in the unit of the channel, positive
     * @return seconds; missing if the record does not show the axis at rest
     * @throws IllegalArgumentException if the trace has no such channel or the window is not positive
     */
    public static Measurement time(Trace trace, String position, double window) {
        return time(
                trace, position, window, new Draft("stopping time", "From the stop command" + TO_REST, Unit.SECOND));
    }

    /**
     * Stopping time of a stop that was not ordered here, from its first sign in the samples. What passes between the device
     * and that sign is not part of it.
     *
     * @param trace time zero is the first sign
     * @param halfWidth seconds by which the stop may have begun earlier or later; its line in the budget is rectangular
     * @return as {@link #time(Trace, String, double)}
     */
    public static Measurement timeSeen(Trace trace, String position, double window, double halfWidth) {
        Draft draft = new Draft(
                "stopping time",
                "From the first sign of the stop in the samples" + TO_REST + NOT_THE_DEVICE,
                Unit.SECOND);
        return time(trace, position, window, draft.add(beginning(1, halfWidth)));
    }

    private static Contribution beginning(double speed, double halfWidth) {
        return Contribution.rectangular(
                "beginning of the stop between two samples",
                "known to ± " + Printed.brief(halfWidth * 1e3) + " ms",
                Math.abs(speed) * halfWidth);
    }

    private static Measurement time(Trace trace, String position, double window, Draft draft) {
        Optional<String> few = End.tooFew(trace);
        if (few.isPresent()) {
            return draft.missing(few.get());
        }
        End end = End.of(trace, position);
        Optional<String> why = end.missing(window / CREEP_IN_WINDOW);
        return why.isPresent()
                ? draft.missing(why.get())
                : Settling.measure(
                        trace,
                        position,
                        new Settling.Band(end.position(), window, end.halfWidth(trace.channel(position))),
                        0,
                        draft);
    }

    /**
     * Stopping distance: from where the axis was when the stop was ordered to where it comes to rest, without sign. What
     * it runs on while the order travels is part of it.
     *
     * <p>Uncertainty: quantisation at both ends (q/√12), repeatability at rest or what a dying tail may still creep, the
     * position between the two samples around the command (½·a times the distances of both, as a standard deviation) and their instants, each by its
     * share in that position, and that of the command, half a round trip each, rectangular, times the speed there.
     *
     * @param trace time zero is the command to stop; it holds a sample before it
     * @return in the unit of the channel, not negative; missing without a sample before the command or if the record does
     *     not show the axis at rest
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement distance(Trace trace, String position) {
        return distance(trace, position, "the stop command", "", OptionalDouble.empty());
    }

    /**
     * Stopping distance of a stop that was not ordered here, from its first sign in the samples.
     *
     * @param trace time zero is the first sign; it holds a sample before it
     * @param halfWidth seconds by which the stop may have begun earlier or later; times the speed there it is a rectangular
     *     line of the budget
     * @return as {@link #distance(Trace, String)}
     */
    public static Measurement distanceSeen(Trace trace, String position, double halfWidth) {
        return distance(
                trace,
                position,
                "the first sign of the stop in the samples",
                NOT_THE_DEVICE.replace("time", "way"),
                OptionalDouble.of(halfWidth));
    }

    private static Measurement distance(
            Trace trace, String position, String begin, String remark, OptionalDouble halfWidth) {
        Channel channel = trace.channel(position);
        Draft draft = new Draft(
                        "stopping distance",
                        "Distance from the position at " + begin
                                + ", between the samples around it, to the mean position at rest." + remark,
                        channel.unit())
                .from(Samples.afterCommand(trace))
                .resolution(channel.quantum());
        int next = 0;
        while (next < trace.size() && trace.time(next) < 0) {
            next++;
        }
        if (next == 0 || next == trace.size()) {
            return draft.missing(
                    "no samples on both sides of " + begin + "; sample before it and until the axis stands");
        }
        Optional<String> few = End.tooFew(trace);
        if (few.isPresent()) {
            return draft.missing(few.get());
        }
        double[] x = trace.values(position);
        double interval = trace.time(next) - trace.time(next - 1);
        double speed = interval > 0 ? (x[next] - x[next - 1]) / interval : 0;
        double at = x[next] - speed * trace.time(next);
        double share = interval > 0 ? trace.time(next) / interval : 0;
        End end = End.of(trace, position);
        double distance = Math.abs(end.position() - at);
        Optional<String> why = end.missing(CREEP_IN_DISTANCE * distance);
        if (why.isPresent()) {
            return draft.missing(why.get());
        }
        halfWidth.ifPresent(known -> draft.add(beginning(speed, known)));
        draft.mark(halfWidth.isPresent() ? "stop begins" : "stop ordered", 0)
                .step("quantisation at the command", channel);
        end.contribute(draft, channel);
        double noise = Samples.noise(Samples.afterCommand(trace).values(position), channel.quantum());
        return draft.add(new Contribution(
                        "position between two samples",
                        Contribution.Evaluation.B,
                        "samples " + Printed.brief(interval * 1e3)
                                + " ms apart; an even deceleration leaves the straight line by all of that",
                        Samples.hiddenAtZero(trace, x, next),
                        Double.POSITIVE_INFINITY))
                .add(new Contribution(
                        "noise of the samples around the command",
                        Contribution.Evaluation.B,
                        "scatter of single readings at rest, each by its share",
                        noise * Math.hypot(share, 1 - share),
                        Double.POSITIVE_INFINITY))
                // The nearer sample counts more: each by the share of the other's distance.
                .add(Samples.instant("instant of the sample before", trace.timeHalfWidth(next - 1), share * speed))
                .add(Samples.instant("instant of the sample after", trace.timeHalfWidth(next), (1 - share) * speed))
                .add(Samples.command(trace, speed))
                .value(distance);
    }

    /**
     * When a stop began that was not ordered here.
     *
     * @param trace time zero is the order to move
     * @param seconds of its first sign in the samples
     * @param halfWidth seconds by which it may have begun earlier or later
     * @return seconds
     */
    public static Measurement begun(Trace trace, double seconds, double halfWidth) {
        return toTheStop(trace)
                .mark("stop begins", seconds)
                .resolution(2 * halfWidth)
                .add(beginning(1, halfWidth))
                .value(seconds);
    }

    /**
     * That no stop began in all the time in which one could.
     *
     * @param seconds from time zero until nobody could stop the axis any more
     * @return seconds, as a lower bound
     */
    public static Measurement notBegun(Trace trace, double seconds) {
        return toTheStop(trace).value(seconds, Measurement.Bound.AT_LEAST);
    }

    private static Draft toTheStop(Trace trace) {
        return new Draft(
                        "time until the stop",
                        "From the order to move to the first sign that the machine stops the axis, middle between the last"
                                + " sample without and the first with it.",
                        Unit.SECOND)
                .from(Samples.afterCommand(trace));
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
