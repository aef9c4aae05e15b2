package org.axtrial.axis;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * Holds an axis to short, slow motions around one place until its sense and scale are proven. It refuses orders before
 * anything is sent, and narrows what samples are held against, so that an axis with a wrong scale is stopped where the
 * right one would have ended.
 */
final class FirstMotionLock {

    private final AxisSetup setup;
    private final Unit unit;
    private final double travel;
    /** An axis at rest is nowhere more exactly than this. */
    private final double window;

    private final double speed;
    private volatile boolean held;
    private volatile String remedy = "A trial that proves \"sense and scale\" must pass on this axis in this run first";
    /** Where the axis stood when its first motion began, in axis units. */
    private volatile OptionalDouble place = OptionalDouble.empty();

    FirstMotionLock(AxisSetup setup) {
        this.setup = setup;
        this.unit = setup.unit();
        Optional<FirstMotion> limits = setup.firstMotion();
        this.held = limits.isPresent();
        this.travel = limits.map(first -> value(first.travel(), unit)).orElse(Double.POSITIVE_INFINITY);
        this.window = value(setup.standstillWindow(), unit);
        this.speed = limits.map(first -> value(first.speed(), unit.perSecond())).orElse(Double.POSITIVE_INFINITY);
    }

    /** Names the trials that unlock, for messages. */
    void unlockedBy(String sentence) {
        remedy = sentence;
    }

    /** Unlocks, or holds again from wherever the axis moves next. */
    void proven(boolean proven) {
        held = !proven && setup.firstMotion().isPresent();
        place = OptionalDouble.empty();
    }

    boolean held() {
        return held;
    }

    /**
     * Refuses a motion that ends too far from where the axis first moved.
     *
     * @throws AxisNotReadyException if it does; nothing was sent
     */
    void checkTravel(String order, double from, double to) {
        if (held && !(Math.abs(to - place.orElse(from)) <= travel + window)) {
            throw refused(order + " would end at " + EnvelopeGuard.text(to, unit) + ", "
                    + EnvelopeGuard.text(Math.abs(to - place.orElse(from)), unit) + " from where the axis first moves");
        }
    }

    /** Refuses a speed, in axis units per second, that is too high. */
    void checkSpeed(String order, double asked) {
        if (held && !(Math.abs(asked) <= speed)) {
            throw refused(order + " asks for " + EnvelopeGuard.text(Math.abs(asked), unit.perSecond()));
        }
    }

    /** Refuses a motion whose way nobody knows beforehand. */
    void refuseUnknownWay(String order) {
        if (held) {
            throw refused(order + " goes as far as the drive finds right, which counts as a long motion");
        }
    }

    /** What samples of a motion are held against; the first one names the place. */
    EnvelopeGuard guard(EnvelopeGuard envelope, double from) {
        if (!held) {
            return envelope;
        }
        if (place.isEmpty()) {
            place = OptionalDouble.of(from);
        }
        double centre = place.getAsDouble();
        return envelope.narrowed(centre - travel, centre + travel, speed);
    }

    private AxisNotReadyException refused(String what) {
        return new AxisNotReadyException(setup.name() + ": " + what + "; before sense and scale are proven it may go "
                + EnvelopeGuard.text(travel, unit) + " at " + EnvelopeGuard.text(speed, unit.perSecond())
                + " at most. " + remedy + "; nothing was sent");
    }

    private double value(Quantity quantity, Unit target) {
        return Math.abs(setup.scale().convert(quantity.value(), quantity.unit(), target));
    }
}
