package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.regression.SimpleRegression;

/** What an axis does while it should stand. */
public final class Standstill {

    private Standstill() {}

    /**
     * Drift during a pause: the last position minus the first.
     *
     * <p>Uncertainty: quantisation of both ends, triangular with half-width q; noise of single samples, √2 times the
     * standard deviation about a straight line through the samples.
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
            SimpleRegression line = new SimpleRegression();
            for (int i = 0; i <= last; i++) {
                line.addData(pause.time(i), pause.value(position, i));
            }
            double noise = Math.sqrt(Math.max(0, line.getMeanSquareError()));
            draft.add(new Contribution(
                    "noise of single samples",
                    Contribution.Evaluation.A,
                    "s = " + Printed.brief(noise, channel.unit()) + " about a straight line",
                    Math.sqrt(2) * noise,
                    last - 1));
        }
        return draft.value(pause.value(position, last) - pause.value(position, 0));
    }
}
