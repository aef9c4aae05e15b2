package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Mean of a signal that should be constant in a window. */
final class SteadyMean {

    private SteadyMean() {}

    /** Quantisation as {@link Dither} leaves it, q/√12 of a value that sits on one step; repeatability s/√n of {@link Scatter}; what gaps may hide. */
    static Measurement of(Trace trace, String signal, double from, double to, String name, String definition) {
        Channel channel = trace.channel(signal);
        Samples.requireWindow(from, to);
        Trace window = trace.between(from, to);
        Draft draft = new Draft(name, definition, channel.unit()).from(window).resolution(channel.quantum());
        if (window.size() < 2) {
            return draft.missing("the window holds " + window.size()
                    + " of the two samples needed; hold the speed longer or sample faster");
        }
        double[] values = window.values(signal);
        Scatter scatter = Scatter.of(values);
        return draft.mark("steady from", window.time(0))
                .mark("steady to", window.time(window.size() - 1))
                .stepOfMean("quantisation", channel, scatter)
                .scatter("repeatability", scatter, "samples")
                .add(Samples.gaps(window, values, 1))
                .value(scatter.mean());
    }
}
