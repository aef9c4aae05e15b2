package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How far an axis went. */
public final class Travel {

    private static final String DEFINITION = "Position at the end (mean of the last 5 to 50 samples at rest; the last"
            + " sample if the axis still moved) minus the position before the command.";

    private Travel() {}

    /**
     * Position change of a move.
     *
     * <p>Uncertainty: quantisation of both ends (q/√12 each, less of noisy readings, {@link Dither}), repeatability at rest (s/√n) of the end and, where the
     * trace shows samples before the command, of the start, which are related to each other as those at rest are too ({@link
     * Scatter#relatedAs}); when the axis still moved at the end, its speed times half the round trip of the last sample and the noise of that
     * sample instead of the repeatability of the end.
     *
     * @param trace time zero is the command
     * @param position name of the position channel
     * @param start position before the command, in the unit of the channel, finite
     * @return in the unit of the channel; missing without a sample after the command
     * @throws IllegalArgumentException if the trace has no such channel or {@code start} is not finite
     */
    public static Measurement of(Trace trace, String position, double start) {
        Channel channel = trace.channel(position);
        Samples.requireFinite("the start position", start);
        Draft draft = new Draft("position change", DEFINITION, channel.unit()).resolution(channel.quantum());
        Trace after = Samples.afterCommand(trace);
        if (after.size() == 0) {
            return draft.missing("no sample was taken after the command; record until the axis stands");
        }
        Rest rest = Rest.atEnd(after, position);
        int last = after.size() - 1;
        draft.from(after.between(after.time(rest.first()), after.time(last))).mark("end position", after.time(last));
        addStart(draft, trace, channel, rest);
        if (rest.moving()) {
            draft.step("quantisation at the end", channel);
            double half = after.timeHalfWidth(last);
            draft.add(Contribution.rectangular(
                            "instant of the last sample",
                            "the axis still moved; half the round trip is " + Printed.brief(half * 1e3) + " ms",
                            Math.abs(rest.speed()) * half))
                    .add(new Contribution(
                            "noise of the last sample",
                            Contribution.Evaluation.A,
                            "s about the straight line through the last samples",
                            rest.aboutALine(),
                            Math.max(1, rest.scatter().n() - 2)));
            return draft.value(after.value(position, last) - start);
        }
        draft.stepOfMean("quantisation at the end", channel, rest.scatter());
        return rest.scatter(draft).value(rest.mean() - start);
    }

    private static void addStart(Draft draft, Trace trace, Channel channel, Rest rest) {
        double[] before =
                trace.between(Double.NEGATIVE_INFINITY, -Double.MIN_VALUE).values(channel.name());
        if (before.length < 2) {
            draft.step("quantisation at the start", channel);
            return;
        }
        Scatter alone = Scatter.of(before);
        Scatter scatter = rest.moving() ? alone : alone.relatedAs(rest.scatter());
        draft.stepOfMean("quantisation at the start", channel, scatter)
                .scatter("repeatability at the start", scatter, "samples before the command");
    }
}
