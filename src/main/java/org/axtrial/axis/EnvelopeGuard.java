package org.axtrial.axis;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * Holds orders and samples against the envelope. Pure: it decides, others act. Messages name axis, limit, what was
 * asked or seen, and what to do.
 */
final class EnvelopeGuard {

    /** A measured speed may exceed the ordered limit by a loop's overshoot (common practice, no source). */
    private static final double SPEED_ALLOWANCE = 1.1;

    private final AxisSetup setup;
    /** What messages call the window. */
    private final String windowName;

    private final Unit unit;
    private final Unit speedUnit;
    private final double lowest;
    private final double highest;
    private final double maxSpeed;
    private final double maxAcceleration;
    private final double window;
    private final double period;

    EnvelopeGuard(AxisSetup setup) {
        this(setup, "the travel window ");
    }

    private EnvelopeGuard(AxisSetup setup, String windowName) {
        this.setup = setup;
        this.windowName = windowName;
        this.unit = setup.unit();
        this.speedUnit = unit.perSecond();
        Envelope envelope = setup.envelope();
        this.lowest = value(envelope.lowest(), unit);
        this.highest = value(envelope.highest(), unit);
        this.maxSpeed = value(envelope.speed(), speedUnit);
        this.maxAcceleration = value(envelope.acceleration(), speedUnit.perSecond());
        this.window = Math.abs(value(setup.standstillWindow(), unit));
        this.period = setup.samplePeriod().toNanos() * 1e-9;
    }

    /**
     * Refuses a motion from one position to another.
     *
     * @throws EnvelopeRefusedException if any part of it lies outside, or it would take too long
     */
    void checkTravel(String order, double from, double to, double seconds) {
        if (!(to >= lowest && to <= highest)) {
            throw refused(order + " would end at " + text(to, unit) + ", outside " + travelWindow());
        }
        if (!(from >= lowest - window && from <= highest + window)) {
            throw refused(order + " would start at " + text(from, unit) + ", which is outside " + travelWindow()
                    + " already; move the axis back by hand or by its own panel");
        }
        double allowed = setup.envelope().time().toNanos() * 1e-9;
        if (!(seconds <= allowed)) {
            throw refused(order + " would take " + text(seconds, Unit.SECOND) + ", longer than the "
                    + text(allowed, Unit.SECOND) + " that the envelope gives one motion");
        }
    }

    /**
     * The guard of a motion whose end nobody knows beforehand, such as homing: it may go so far from where it stands, either
     * way, wherever the travel window lies on a zero that is not known yet.
     *
     * @param reach in axis units
     * @throws EnvelopeRefusedException if the way is zero or more than the travel window is wide
     */
    EnvelopeGuard around(String order, double from, double reach) {
        if (!(reach > 0 && reach <= highest - lowest)) {
            throw refused(order + " may go " + text(reach, unit) + " either way; give more than 0 and at most "
                    + text(highest - lowest, unit) + ", the width of the travel window");
        }
        return new EnvelopeGuard(setup.within(from - reach, from + reach));
    }

    /**
     * The guard of an axis whose sense and scale are not proven yet: the part of the travel window, in axis units, and the
     * speed, in axis units per second, that it is held to.
     */
    EnvelopeGuard narrowed(double low, double high, double speed) {
        return new EnvelopeGuard(
                setup.within(
                        Math.max(low, lowest),
                        Math.min(high, highest),
                        new Quantity(Math.min(speed, maxSpeed), speedUnit)),
                "the window of its first motion ");
    }

    /** Refuses a speed, told in axis units per second, that is zero, not finite or above the envelope. */
    void checkSpeed(String order, double speed) {
        if (!(Math.abs(speed) > 0) || Double.isInfinite(speed)) {
            throw refused(order + " has a speed of " + text(speed, speedUnit) + "; a motion needs a speed above zero");
        }
        if (Math.abs(speed) > maxSpeed) {
            throw refused(order + " asks for " + speedText(Math.abs(speed))
                    + ", more than the largest speed of the envelope, " + speedText(maxSpeed));
        }
    }

    /** Of a rotary axis also in r/min, as scripts and site files mostly say it. */
    private String speedText(double speed) {
        String told = text(speed, speedUnit);
        return speedUnit.dimension() == Dimension.ANGULAR_SPEED && speedUnit != Unit.REVOLUTION_PER_MINUTE
                ? told + " (" + text(speedUnit.convert(speed, Unit.REVOLUTION_PER_MINUTE), Unit.REVOLUTION_PER_MINUTE)
                        + ")"
                : told;
    }

    void checkAcceleration(String order, double acceleration) {
        if (!(acceleration > 0) || Double.isInfinite(acceleration)) {
            throw refused(order + " has an acceleration of " + text(acceleration, speedUnit.perSecond())
                    + "; it must be above zero");
        }
        if (acceleration > maxAcceleration) {
            throw refused(order + " asks for " + text(acceleration, speedUnit.perSecond())
                    + ", more than the largest acceleration of the envelope, "
                    + text(maxAcceleration, speedUnit.perSecond()));
        }
    }

    /** What of the envelope a sample breaks, empty if nothing. */
    Optional<String> violation(AxisSample sample, Optional<AxisSample> before) {
        double position = sample.position();
        if (position < lowest - window || position > highest + window) {
            return broken("stood at " + text(position, unit) + ", outside " + travelWindow());
        }
        double speed = sample.speed();
        double stopsAt = position + Math.signum(speed) * speed * speed / (2 * maxAcceleration);
        double slack = window + Math.abs(speed) * period;
        if (stopsAt < lowest - slack || stopsAt > highest + slack) {
            return broken("moved at " + text(speed, speedUnit) + " at " + text(position, unit)
                    + " and could no longer stop inside " + travelWindow());
        }
        if (Math.abs(speed) > maxSpeed * SPEED_ALLOWANCE) {
            return broken("reported " + text(Math.abs(speed), speedUnit) + ", above the largest speed of the envelope, "
                    + text(maxSpeed, speedUnit));
        }
        Optional<String> travelled = before.flatMap(earlier -> tooFar(earlier, sample));
        if (travelled.isPresent()) {
            return travelled;
        }
        return setup.envelope()
                .torque()
                .flatMap(limit -> Math.abs(sample.torque()) > limit.in(Unit.PERCENT)
                        ? broken("reported a torque of " + text(Math.abs(sample.torque()), Unit.PERCENT)
                                + ", above the largest torque of the envelope, " + limit)
                        : Optional.empty());
    }

    /** The speed that two positions tell, which a wrongly scaled speed signal cannot hide. */
    private Optional<String> tooFar(AxisSample before, AxisSample sample) {
        // The drive looked at its registers anywhere between request and reply, so the longest possible time counts.
        double seconds = (sample.repliedNanos() - before.sentNanos()) * 1e-9;
        double distance = Math.abs(sample.position() - before.position());
        return distance > maxSpeed * SPEED_ALLOWANCE * seconds + window
                ? broken("went " + text(distance, unit) + " in " + text(seconds, Unit.SECOND)
                        + ", faster than the largest speed of the envelope, " + text(maxSpeed, speedUnit))
                : Optional.empty();
    }

    /** A position change against the ordered direction that no settling explains. */
    Optional<String> wrongWay(double start, double target, double position) {
        double ordered = target - start;
        double against = -Math.signum(ordered) * (position - start);
        return against > Math.max(5 * window, Math.abs(ordered) / 10)
                ? broken("was sent from " + text(start, unit) + " to " + text(target, unit)
                        + " and went the other way, to " + text(position, unit)
                        + "; check the direction in the site file and the wiring of motor and encoder")
                : Optional.empty();
    }

    String travelWindow() {
        return windowName + text(lowest, unit) + " … " + text(highest, unit);
    }

    private Optional<String> broken(String what) {
        return Optional.of(setup.name() + " " + what);
    }

    private EnvelopeRefusedException refused(String what) {
        return new EnvelopeRefusedException(setup.name() + ": " + what + "; nothing was sent");
    }

    private double value(Quantity quantity, Unit target) {
        return setup.scale().convert(quantity.value(), quantity.unit(), target);
    }

    /** A value for a message, to six digits. */
    static String text(double value, Unit unit) {
        return Double.isFinite(value) ? new Quantity(value, unit).printed(6) : Double.toString(value);
    }

    /** A position of an axis for a message, to one count of its position register. */
    static String position(double value, AxisSetup setup) {
        double count = setup.scale().convert(1, Unit.COUNT, setup.unit());
        int decimals = Math.max(0, (int) Math.ceil(-Math.log10(count)));
        double rounded =
                new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP).doubleValue();
        return new Quantity(rounded, setup.unit()).printed(12);
    }
}
