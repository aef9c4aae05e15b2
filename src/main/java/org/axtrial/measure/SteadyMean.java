package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Mean of a signal that should be constant in a window. */
final class SteadyMean {

    private SteadyMean() {}

    /** Quantisation q/√12, not reduced by the mean, because a steady value may sit on one step; repeatability s/√n of {@link Scatter}. */
    static Measurement of(Trace trace, String signal, double from, double to, String name, String definition) {
        Channel channel = trace.channel(signal);
        Samples.requireWindow(from, to);
        Trace window = trace.between(from, to);
        Draft draft = new Draft(name, definition, channel.unit()).from(window).resolution(channel.quantum());
        if (window.size() < 2) {
            return draft.missing("the window holds " + window.size()
                    + " of the two samples needed; hold the speed longer or sample faster");
        }
        Scatter scatter = Scatter.of(window.values(signal));
        return draft.mark("steady from", window.time(0))
                .mark("steady to", window.time(window.size() - 1))
                .step("quantisation", channel)
                .scatter("repeatability", scatter, "samples")
                .value(scatter.mean());
    }
}
