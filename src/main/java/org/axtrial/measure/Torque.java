package org.axtrial.measure;

import java.util.Arrays;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Torque of a motion as the drive reports it. */
public final class Torque {

    private Torque() {}

    /**
     * Largest size of the torque after the command: as the drive latched it, or else of the samples.
     *
     * <p>Uncertainty: quantisation (q/√12), and for samples a·P²/8 for a peak between them, with a from second differences.
     *
     * @param trace time zero is the command
     * @param channel name of the torque channel
     * @return in the unit of the channel, not negative; missing without a sample after the command
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement peak(Trace trace, String channel) {
        return Latched.preferred(
                trace,
                channel,
                "Largest size of the torque that the drive latched, from just before the command to just after the last"
                        + " sample.",
                Peak.of(trace, "peak torque", "Largest size of the torque in the samples after the command.", channel));
    }

    /**
     * RMS torque from the first to the last sample after the command, pauses included: √(∫T²dt / t), the integral by
     * the trapezoid rule on T².
     *
     * <p>Uncertainty: quantisation (q/√12), and for each interval the moment at which T² changed from one sample to the
     * next, rectangular over the interval: half-width |ΔT²|·Δt/2 in the integral.
     *
     * @return in the unit of the channel; missing with fewer than two samples after the command
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public static Measurement rms(Trace trace, String channel) {
        Channel torque = trace.channel(channel);
        Trace after = Samples.afterCommand(trace);
        Draft draft = new Draft(
                        "RMS torque",
                        "Root of the time mean of the squared torque over the samples after the command, pauses"
                                + " included, by the trapezoid rule.",
                        torque.unit())
                .from(after)
                .resolution(torque.quantum());
        int last = after.size() - 1;
        double time = last < 1 ? 0 : after.time(last) - after.time(0);
        if (time <= 0) {
            return draft.missing("fewer than two samples were taken after the command; record the whole motion");
        }
        double[] t = after.values(channel);
        double integral = 0;
        double changes = 0;
        for (int i = 1; i < t.length; i++) {
            double interval = after.time(i) - after.time(i - 1);
            integral += (t[i] * t[i] + t[i - 1] * t[i - 1]) / 2 * interval;
            double change = (t[i] * t[i] - t[i - 1] * t[i - 1]) / 2 * interval;
            changes += change * change;
        }
        double rms = Math.sqrt(integral / time);
        draft.step("quantisation", torque);
        if (rms > 0) {
            // A sum of many rectangular parts is near a normal one.
            draft.add(new Contribution(
                    "changes between samples",
                    Contribution.Evaluation.B,
                    "the moments of change are known to one sample interval",
                    Math.sqrt(changes / 3) / (2 * rms * time),
                    Double.POSITIVE_INFINITY));
        }
        return draft.add(gaps(after, t, rms)).value(rms);
    }

    /** As of a mean, of the square of the torque, whose root falsifies as 1/(2·rms) of it. */
    private static Contribution gaps(Trace trace, double[] torque, double rms) {
        double[] squares = Arrays.stream(torque).map(x -> x * x).toArray();
        return Samples.gaps(trace, squares, rms > 0 ? 1 / (2 * rms) : 0);
    }
}
