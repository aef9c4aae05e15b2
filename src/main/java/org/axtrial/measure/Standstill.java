package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** What an axis does while it should stand. */
public final class Standstill {

    private Standstill() {}

    /**
     * Where the axis stands at the end of a record: mean of the samples at rest.
     *
     * <p>Uncertainty: quantisation (q/√12, not reduced by the mean, because an axis at rest may sit on one step) and
     * repeatability at rest (s/√n).
     *
     * @param trace time zero is the command, or the begin of the pause
     * @param position name of the position channel
     * @return in the unit of the channel, on its zero; missing with fewer than five samples after time zero, or while
     *     the axis still moves
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement restPosition(Trace trace, String position) {
        Channel channel = trace.channel(position);
        Trace after = Samples.afterCommand(trace);
        Draft draft = new Draft(
                        "rest position",
                        "Mean of the last 5 to 50 samples, where the axis is at rest, on the zero of the axis.",
                        channel.unit())
                .from(after)
                .resolution(channel.quantum());
        if (after.size() < Rest.FEWEST) {
            return draft.missing("the record holds " + after.size() + " of the " + Rest.FEWEST
                    + " samples that show an axis at rest; record longer or sample faster");
        }
        Rest rest = Rest.atEnd(after, position);
        int last = after.size() - 1;
        draft.from(after.between(after.time(rest.first()), after.time(last)));
        if (rest.moving()) {
            return draft.missing("the axis still moved when the record ended, by "
                    + Printed.brief(rest.speed(), channel.unit()) + " in a second; record until it stands");
        }
        draft.mark("rest from", after.time(rest.first()))
                .mark("rest to", after.time(last))
                .stepOfMean("quantisation", channel, rest.scatter());
        return rest.scatter(draft).value(rest.mean());
    }

    /**
     * Drift during a pause: the last position minus the first.
     *
     * <p>Uncertainty: quantisation of both ends, triangular with half-width q; noise of single samples, √2 times the
     * standard deviation about a straight line through the samples, less q²/12 for the steps that are in it.
     *
     * @param trace time zero is the begin of the pause
     * @param position name of the position channel
     * @return in the unit of the channel, signed; missing with fewer than two samples after time zero
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement drift(Trace trace, String position) {
        Channel channel = trace.channel(position);
        Trace pause = Samples.afterCommand(trace);
        Draft draft = new Draft(
                        "drift at standstill", "Position of the last sample minus that of the first.", channel.unit())
                .from(pause)
                .resolution(channel.quantum());
        int last = pause.size() - 1;
        if (last < 1) {
            return draft.missing("fewer than two samples were taken during the pause; pause longer");
        }
        draft.mark("drift from", pause.time(0))
                .mark("drift to", pause.time(last))
                .add(Contribution.triangular(
                        "quantisation of both ends",
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()),
                        channel.quantum()));
        if (last >= 2 && pause.time(last) > pause.time(0)) {
            double seen = LineFit.of(pause.times(), pause.values(position)).residual();
            double steps = channel.quantum() * channel.quantum() / 12;
            double noise = Math.sqrt(Math.max(0, seen * seen - steps));
            draft.add(new Contribution(
                    "noise of single samples",
                    Contribution.Evaluation.A,
                    "s = " + Printed.brief(noise, channel.unit()) + " about a straight line, without the steps",
                    Math.sqrt(2) * noise,
                    last - 1));
        }
        return draft.value(pause.value(position, last) - pause.value(position, 0));
    }
}
