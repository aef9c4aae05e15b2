package org.axtrial.measure;

import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Speed from displacement over time, which a drift of the drive's own speed signal cannot falsify. */
public final class MeanSpeed {

    private static final String DEFINITION =
            "Displacement between the first and the last sample of the window, divided by the time between them.";

    private MeanSpeed() {}

    /**
     * Mean speed between two moments.
     *
     * <p>Uncertainty, with T between first and last sample: counting, triangular with half-width q/T (two quantised
     * ends); instants of the samples, half a round trip each, rectangular, times speed over T. The resolution is the
     * speed quantum q/T; in r/min and counts per revolution 60/(CPR·T).
     *
     * @param trace time zero is the command
     * @param position name of the position channel
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return in the position's unit per second; missing with fewer than two samples in the window
     * @throws IllegalArgumentException if the trace has no such channel, its unit is none of position, or the window is
     *     empty
     */
    public static Measurement of(Trace trace, String position, double from, double to) {
        Channel channel = trace.channel(position);
        Samples.requireWindow(from, to);
        SpeedUnit unit = SpeedUnit.of(channel.unit());
        Trace window = trace.between(from, to);
        Draft draft = new Draft("mean speed", DEFINITION, unit.speed()).from(window);
        int last = window.size() - 1;
        double time = last < 1 ? 0 : window.time(last) - window.time(0);
        if (time <= 0) {
            return draft.missing("the window from " + Printed.brief(from) + " s to " + Printed.brief(to) + " s holds "
                    + window.size() + " of the two samples needed; hold the speed longer or sample faster");
        }
        double travelled =
                channel.unit().convert(window.value(position, last) - window.value(position, 0), unit.length());
        double speed = travelled / time;
        double quantum = channel.unit().convert(channel.quantum(), unit.length()) / time;
        draft.resolution(quantum)
                .mark("speed from", window.time(0))
                .mark("speed to", window.time(last))
                .add(Contribution.triangular(
                        "counting",
                        "one position step in " + Printed.brief(time) + " s is " + Printed.brief(quantum, unit.speed()),
                        quantum))
                .add(Samples.instant("instant of the first sample", window.timeHalfWidth(0), speed / time))
                .add(Samples.instant("instant of the last sample", window.timeHalfWidth(last), speed / time));
        return draft.value(speed);
    }
}
