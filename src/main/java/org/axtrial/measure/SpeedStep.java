package org.axtrial.measure;

import java.util.Arrays;
import java.util.Optional;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How the reported speed answers a step of the order: rise and overshoot as control engineering defines them. */
public final class SpeedStep {

    private static final double LOW = 0.1;
    private static final double HIGH = 0.9;

    private SpeedStep() {}

    /**
     * Time from the first passage of 10 % to the first passage of 90 % of the ordered speed, straight lines between samples.
     *
     * <p>Uncertainty: that of both {@linkplain Passage passages}.
     *
     * @param ordered signed speed in the unit of the channel, not 0
     * @return in s; AT_MOST the distance of two samples if both passages lie between them; missing if the speed did not pass both
     */
    public static Measurement rise(Trace trace, String speed, double ordered) {
        Trace after = Samples.afterCommand(trace);
        Draft draft = new Draft(
                        "rise time of the speed",
                        "From the first passage of 10 % to the first passage of 90 % of the ordered speed.",
                        Unit.SECOND)
                .from(after)
                .resolution(after.worstPeriod().orElse(0));
        Optional<Passage> low = Passage.first(after, speed, LOW * ordered);
        Optional<Passage> high = Passage.first(after, speed, HIGH * ordered);
        if (low.isEmpty() || high.isEmpty()) {
            return draft.missing("the speed did not pass 10 % and 90 % of what was ordered");
        }
        int last = high.get().after();
        if (low.get().after() == last) {
            return draft.mark("90 %", after.time(last))
                    .value(after.time(last) - after.time(last - 1), Measurement.Bound.AT_MOST);
        }
        low.get().contribute(draft, "10 %");
        high.get().contribute(draft, "90 %");
        return draft.mark("10 %", low.get().time())
                .mark("90 %", high.get().time())
                .value(high.get().time() - low.get().time());
    }

    /**
     * Largest reported speed beyond the ordered one, in percent of it; 0 if it never went beyond.
     *
     * <p>Uncertainty: quantisation q/√12, and what the peak may hide between samples, as of a position.
     *
     * @param ordered signed speed in the unit of the channel, not 0
     * @param until end of the part that is looked at, seconds after the order
     */
    public static Measurement overshoot(Trace trace, String speed, double ordered, double until) {
        Channel channel = trace.channel(speed);
        Trace after = Samples.afterCommand(trace).between(0, until);
        double[] beyond = Arrays.stream(after.values(speed))
                .map(value -> (value / ordered - 1) * 100)
                .toArray();
        int peak = Samples.largest(beyond);
        double step = Math.abs(channel.quantum() / ordered) * 100;
        Draft draft = new Draft(
                        "overshoot of the speed",
                        "Largest reported speed beyond the ordered one, in percent of the ordered one.",
                        Unit.PERCENT)
                .from(after)
                .resolution(step);
        if (beyond.length == 0) {
            return draft.missing("no sample was taken after the command; record while the axis moves");
        }
        Samples.Hidden hidden = Samples.hiddenAbove(after, beyond, beyond, peak).without(step / Math.sqrt(12));
        return draft.add(Contribution.quantisation(
                        "quantisation of the speed",
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()),
                        step))
                .hiddenPeak(hidden, Math.max(0, Math.min(hidden.above(), beyond[peak] + hidden.above())))
                .value(
                        Math.max(0, beyond[peak]),
                        beyond.length < Samples.SHOW_CURVATURE ? Measurement.Bound.AT_LEAST : Measurement.Bound.EXACT);
    }
}
