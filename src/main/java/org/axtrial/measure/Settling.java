package org.axtrial.measure;

import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * How long an axis takes to come to its target and stay there.
 *
 * <p>Settled means that the position entered target ± window for the last time and stayed until the record ended, seen
 * by at least {@value #STAY} samples. The axis entered somewhere between the last sample outside and the first one
 * inside; the value is the middle of the two, with half their distance as a rectangular contribution
 * (JCGM 100:2008, 4.3.7). An excursion between two samples inside is not seen.
 */
public final class Settling {

    /** Fewest samples inside the window that prove that the axis stayed. */
    static final int STAY = 5;

    private static final String STAYS = " to the last entry into target ± window, where the position stays until the"
            + " record ends; middle between the last sample outside and the first inside.";

    private Settling() {}

    /**
     * Settling time from the command.
     *
     * @param trace time zero is the command
     * @param position name of the position channel
     * @param target position to settle at, in the unit of the channel, finite
     * @param window half width of the band, in the unit of the channel, positive; its edge belongs to the band
     * @return seconds; AT_LEAST the last sample seen outside if the record does not show that the axis stayed, AT_MOST
     *     the first sample if the axis was inside already; missing if the record is too short or the window is below
     *     half a step of the position
     * @throws IllegalArgumentException if the trace has no such channel or a number is out of range
     */
    public static Measurement of(Trace trace, String position, double target, double window) {
        return measure(
                trace,
                position,
                new Band(target, window, 0),
                0,
                new Draft("settling time", "From the command" + STAYS, Unit.SECOND));
    }

    /**
     * Settling time from the end of the ordered profile; 0 if the axis is within the window by then. The drive begins
     * its profile at an unknown moment within the exchange that carried the command, so this is no sharper than that.
     *
     * @param profileEndSeconds when the ordered profile ends, seconds after the command, not negative
     * @return as {@link #of}, counted from the end of the profile
     * @throws IllegalArgumentException as {@link #of}
     */
    public static Measurement fromProfileEnd(
            Trace trace, String position, double target, double window, double profileEndSeconds) {
        if (Samples.requireFinite("the end of the profile", profileEndSeconds) < 0) {
            throw new IllegalArgumentException(
                    "the profile must not end before the command, got " + profileEndSeconds + " s");
        }
        Draft draft = new Draft(
                "settling time after the profile",
                "From the end of the ordered profile" + STAYS + " 0 if inside by the end of the profile.",
                Unit.SECOND);
        draft.mark("profile end", profileEndSeconds);
        return measure(trace, position, new Band(target, window, 0), profileEndSeconds, draft);
    }

    /**
     * Where an axis settles.
     *
     * @param target finite
     * @param window half width, positive
     * @param targetHalfWidth within which the target is known, 0 for an ordered one
     */
    record Band(double target, double window, double targetHalfWidth) {

        Band {
            Samples.requireFinite("the target", target);
            if (Samples.requireFinite("the window", window) <= 0) {
                throw new IllegalArgumentException("the window must be positive, got " + window);
            }
        }
    }

    /** Time from {@code zero} on to the last entry, into the draft of a value that is defined in this way. */
    static Measurement measure(Trace trace, String position, Band band, double zero, Draft draft) {
        Channel channel = trace.channel(position);
        Trace after = Samples.afterCommand(trace);
        draft.from(after).resolution(after.worstPeriod().orElse(0));
        if (after.size() == 0) {
            return draft.missing("no sample was taken after the command; record until the axis has settled");
        }
        if (band.window() < channel.quantum() / 2) {
            return draft.missing("a window of ± " + Printed.brief(band.window(), channel.unit())
                    + " is narrower than one step of the position, " + Printed.brief(channel.quantum(), channel.unit())
                    + "; widen the window or use finer feedback");
        }
        double[] x = after.values(position);
        double edge = band.window() + Samples.ROUNDING * channel.quantum();
        int outside = x.length - 1;
        while (outside >= 0 && Math.abs(x[outside] - band.target()) <= edge) {
            outside--;
        }
        int inside = x.length - 1 - outside;
        if (outside < 0) {
            return insideFromTheStart(after, zero, inside, draft);
        }
        if (inside < STAY) {
            draft.mark("last outside", after.time(outside))
                    .add(Samples.instant("instant of the last sample outside", after.timeHalfWidth(outside), 1))
                    .add(Samples.command(after, 1));
            return draft.value(Math.max(0, after.time(outside) - zero), Measurement.Bound.AT_LEAST);
        }
        return entered(after, position, outside, band.targetHalfWidth(), zero, draft);
    }

    private static Measurement insideFromTheStart(Trace after, double zero, int inside, Draft draft) {
        if (inside < STAY) {
            return draft.missing("the record holds " + inside + " of the " + STAY
                    + " samples within the window that show that the axis stays; record longer");
        }
        draft.mark("first inside", after.time(0))
                .add(Samples.instant("instant of the first sample inside", after.timeHalfWidth(0), 1))
                .add(Samples.command(after, 1));
        double first = after.time(0) - zero;
        return first <= 0 ? draft.value(0) : draft.value(first, Measurement.Bound.AT_MOST);
    }

    private static Measurement entered(
            Trace after, String position, int outside, double targetHalfWidth, double zero, Draft draft) {
        double left = after.time(outside);
        double right = after.time(outside + 1);
        double interval = right - left;
        // An axis may also have left and come back in a longer interval after the entry.
        double longest =
                after.between(left, Double.POSITIVE_INFINITY).worstPeriod().orElse(interval);
        draft.resolution(longest).mark("last outside", left).mark("settled", right);
        if (right <= zero) {
            return bothInstants(draft, after, outside)
                    .add(Samples.command(after, 1))
                    .value(0);
        }
        double from = Math.max(0, left - zero);
        double to = right - zero;
        draft.add(Contribution.rectangular(
                "entry between two samples",
                "samples " + Printed.brief(interval * 1e3) + " ms apart",
                (to - from) / 2));
        bothInstants(draft, after, outside).add(Samples.command(after, 1));
        EntrySpeed.at(after, position, outside).contribute(draft, targetHalfWidth);
        return draft.value((from + to) / 2);
    }

    /**
     * A value in the middle of two samples has half the error of each. The entry rather falls into an interval that is longer than it
     * seems: of an interval known to a variance σ² the mean square of its length as met by an event at random is larger by 3σ² (length
     * bias), and so that of the distance from its middle by σ²/4, as much again as the middle itself. Both together are √½ of
     * the half-width of each.
     */
    private static Draft bothInstants(Draft draft, Trace trace, int outside) {
        return draft.add(Samples.instant(
                        "instant of the last sample outside", trace.timeHalfWidth(outside), Math.sqrt(0.5)))
                .add(Samples.instant(
                        "instant of the first sample inside", trace.timeHalfWidth(outside + 1), Math.sqrt(0.5)));
    }
}
