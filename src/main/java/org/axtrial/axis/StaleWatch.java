package org.axtrial.axis;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Unit;

/**
 * Sees registers that nobody refreshes: an axis that has been ordered to move shows the same position and demand over
 * several samples. At rest nothing can be seen of that, so it watches only while the order must show.
 */
final class StaleWatch {

    private static final int SAMPLES = 5;
    /** Drives begin late and end with a crawl; so much may pass without a change (common practice, no source). */
    private static final double GRACE_SECONDS = 0.1;

    private final AxisSetup setup;
    private final double window;
    private DoubleUnaryOperator ordered = seconds -> 0;
    /** A speed that would leave the window so many times over contradicts a position that stands. */
    private static final double CONTRADICTION = 20;

    private boolean watching;
    private boolean everOrdered;
    private boolean moved;
    private double position;
    private OptionalDouble demand = OptionalDouble.empty();
    private double since;
    private int same;

    StaleWatch(AxisSetup setup) {
        this.setup = setup;
        this.window = SafeStop.windowInAxisUnit(setup);
    }

    /**
     * A motion has been ordered.
     *
     * @param path distance that the order makes after so many seconds, in axis units, growing
     * @param rest the last sample before it
     */
    void ordered(DoubleUnaryOperator path, AxisSample rest) {
        ordered = path;
        watching = true;
        everOrdered = true;
        moved = false;
        since = 0;
        same = 0;
        position = rest.position();
        demand = rest.demand();
    }

    /** From now on the axis may stand. */
    void mayRest() {
        watching = false;
    }

    /** What is wrong with a sample, empty if nothing. */
    Optional<String> stale(AxisSample sample, double seconds) {
        if (sample.position() != position || !sample.demand().equals(demand)) {
            position = sample.position();
            demand = sample.demand();
            moved = true;
            since = seconds;
            same = 0;
            return Optional.empty();
        }
        same++;
        double missed = ordered.applyAsDouble(Math.max(0, seconds - GRACE_SECONDS)) - ordered.applyAsDouble(since);
        if (same < SAMPLES) {
            return Optional.empty();
        }
        String how = "for " + EnvelopeGuard.text(seconds - since, Unit.SECOND);
        if (watching && missed > 5 * window) {
            return Optional.of(text(how));
        }
        double contradicted = Math.abs(sample.speed()) * Math.min(seconds - since, GRACE_SECONDS);
        return everOrdered && contradicted > CONTRADICTION * window
                ? Optional.of(text(how + " while the speed reads "
                        + EnvelopeGuard.text(sample.speed(), setup.unit().perSecond())))
                : Optional.empty();
    }

    /** What is wrong with an arrival after a whole move of some distance, empty if nothing. */
    Optional<String> neverMoved(double distance) {
        return !moved && Math.abs(distance) > 2 * window
                ? Optional.of(text("although the drive says that it has arrived"))
                : Optional.empty();
    }

    private String text(String how) {
        return setup.name() + " was ordered to move, but position" + (demand.isPresent() ? " and demand" : "")
                + " stood at " + EnvelopeGuard.text(position, setup.unit()) + " " + how
                + ". The registers may be stale: look at the axis itself, then at the gateway or the drive's communication."
                + " If it truly stands, find what holds it";
    }
}
