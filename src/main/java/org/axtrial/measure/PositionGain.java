package org.axtrial.measure;

import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * Gain of a proportional position loop from its steady following error: Kv = v/e. It holds for a loop without velocity
 * feed-forward; with a share f of it the value is Kv/(1 − f).
 */
public final class PositionGain {

    private PositionGain() {}

    /**
     * Gain at constant speed.
     *
     * <p>Uncertainty: those of mean speed and steady following error, each by its sensitivity (JCGM 100:2008, 5.1.2).
     *
     * @param trace the samples
     * @param position name of the position channel
     * @param error name of the following-error channel, in the unit of the position
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return 1/s, positive for an axis that lags; missing if the error is zero within one step or the window is too short
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static Measurement of(Trace trace, String position, String error, double from, double to) {
        Measurement speed = MeanSpeed.of(trace, position, from, to);
        Measurement lag = FollowingError.steady(trace, error, from, to);
        Draft draft = new Draft(
                        "position gain",
                        "Mean speed divided by the mean following error at that speed.",
                        Unit.PER_SECOND)
                .from(trace.between(from, to));
        if (speed.missing().isPresent() || lag.missing().isPresent()) {
            return draft.missing(speed.missing().or(lag::missing).orElseThrow());
        }
        Channel channel = trace.channel(error);
        if (Math.abs(lag.value()) <= channel.quantum() || lag.value() == 0) {
            return draft.missing(
                    "the following error is zero within one step, as with full velocity feed-forward, so that"
                            + " no gain follows from it");
        }
        Unit length = trace.channel(position).unit();
        double e = channel.unit().convert(lag.value(), SpeedUnit.of(length).length());
        double perError = channel.unit().convert(1, SpeedUnit.of(length).length()) / e;
        double gain = speed.value() / e;
        speed.marks().forEach(mark -> draft.mark(mark.label(), mark.seconds()));
        speed.budget().contributions().forEach(c -> draft.add(c.times(1 / e)));
        lag.budget().contributions().forEach(c -> draft.add(c.times(gain * perError)));
        return draft.resolution(Math.abs(gain * perError) * channel.quantum()).value(gain);
    }

    /**
     * Following error that a loop without feed-forward should have at a speed, less the share that feed-forward takes:
     * (1 − f)·v/Kv.
     *
     * @param speed length per second
     * @param gain Kv in 1/s, positive
     * @param feedForward share f of velocity feed-forward, 0 … 1
     * @return in the length of the speed
     */
    public static double expectedError(double speed, double gain, double feedForward) {
        if (!(gain > 0) || !(feedForward >= 0 && feedForward <= 1) || !Double.isFinite(speed)) {
            throw new IllegalArgumentException(
                    "expected a finite speed, a positive gain and a feed-forward from 0 to 1, got " + speed + ", "
                            + gain + ", " + feedForward);
        }
        return (1 - feedForward) * speed / gain;
    }
}
