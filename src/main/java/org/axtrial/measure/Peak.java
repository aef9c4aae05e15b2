package org.axtrial.measure;

import java.util.Arrays;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Largest size of a sampled signal after the command. */
final class Peak {

    private Peak() {}

    /** Quantisation q/√12 and the part that may hide between samples, as {@link Samples#hiddenAbove}. */
    static Measurement of(Trace trace, String name, String definition, String signal) {
        Channel channel = trace.channel(signal);
        Trace after = Samples.afterCommand(trace);
        Draft draft = new Draft(name, definition, channel.unit()).from(after).resolution(channel.quantum());
        if (after.size() == 0) {
            return draft.missing("no sample was taken after the command; record while the axis moves");
        }
        double[] values = after.values(signal);
        double[] sizes = Arrays.stream(values).map(Math::abs).toArray();
        int peak = Samples.largest(sizes);
        Samples.Hidden hidden =
                Samples.hiddenAbove(after, values, sizes, peak).without(channel.quantum() / Math.sqrt(12));
        return draft.mark("peak", after.time(peak))
                .step("quantisation", channel)
                .hiddenPeak(hidden, hidden.above())
                .value(
                        sizes[peak],
                        sizes.length < Samples.SHOW_CURVATURE ? Measurement.Bound.AT_LEAST : Measurement.Bound.EXACT);
    }
}
