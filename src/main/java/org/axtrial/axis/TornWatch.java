package org.axtrial.axis;

import java.util.Optional;
import org.axtrial.quantity.Unit;

/**
 * Sees a position whose words were not read at one instant: it jumps by 65536 counts against the way that the axis went
 * before, which no shaft does. Judged only where the envelope leaves no other explanation.
 */
final class TornWatch {

    private static final double WORD = 65_536;
    private static final double CLOSE = WORD / 8;

    private final AxisSetup setup;
    private final double unitPerCount;
    private final double fastest;
    private final double strongest;
    private Optional<AxisSample> last = Optional.empty();
    private double lastStep;
    private double lastSeconds;

    TornWatch(AxisSetup setup) {
        this.setup = setup;
        this.unitPerCount = Math.abs(setup.scale().convert(1, Unit.COUNT, setup.unit()));
        this.fastest = counts(
                setup.envelope().speed().value(),
                setup.envelope().speed().unit(),
                setup.unit().perSecond());
        this.strongest = counts(
                setup.envelope().acceleration().value(),
                setup.envelope().acceleration().unit(),
                setup.unit().perSecond().perSecond());
    }

    private double counts(double value, Unit from, Unit to) {
        return Math.abs(setup.scale().convert(value, from, to)) / unitPerCount;
    }

    /** What is wrong with a sample, empty if nothing can be said. */
    Optional<String> torn(AxisSample sample) {
        if (last.isEmpty()) {
            last = Optional.of(sample);
            return Optional.empty();
        }
        AxisSample before = last.get();
        double step = (sample.position() - before.position()) / unitPerCount;
        double seconds = (sample.midNanos() - before.midNanos()) * 1e-9;
        double predicted = lastSeconds > 0 ? lastStep * seconds / lastSeconds : 0;
        double span = Math.max(seconds, lastSeconds);
        double roundTrips =
                (sample.repliedNanos() - sample.sentNanos() + before.repliedNanos() - before.sentNanos()) * 1e-9;
        // Twice the envelope: an axis may brake harder than it was ordered to, at a stop for example.
        double explained = 2 * strongest * span * span + 2 * fastest * roundTrips;
        last = Optional.of(sample);
        lastStep = step;
        lastSeconds = seconds;
        double jump = step - predicted;
        double words = Math.rint(jump / WORD);
        if (words == 0 || Math.abs(jump - words * WORD) > CLOSE || explained > WORD / 4) {
            return Optional.empty();
        }
        return Optional.of(setup.name() + " seems to have jumped by " + EnvelopeGuard.text(jump, Unit.COUNT)
                + " within one sample: the two words of its position were not read at one instant, or stand in the wrong"
                + " order. Check word order in the drive description, and whether the drive gives 32-bit values whole");
    }
}
