package org.axtrial.measure;

import java.util.Optional;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Mean of a signal that should be constant in a window. */
final class SteadyMean {

    private SteadyMean() {}

    /** Quantisation as {@link Dither} leaves it, q/√12 of a value that sits on one step; repeatability s/√n of {@link Scatter}, about a {@link Wave} if there is one; what gaps may hide. */
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
        Optional<Wave> wave = scatter.autocorrelation() > 0 ? Wave.in(window, signal) : Optional.empty();
        wave.ifPresentOrElse(ripple -> ripple.addToMean(draft), () -> draft.add(Samples.gaps(window, values, 1)));
        return draft.mark("steady from", window.time(0))
                .mark("steady to", window.time(window.size() - 1))
                .stepOfMean("quantisation", channel, scatter)
                .scatter(
                        "repeatability",
                        wave.map(Wave::left).orElse(scatter),
                        wave.isPresent() ? "samples about their wave" : "samples")
                .value(scatter.mean());
    }
}
