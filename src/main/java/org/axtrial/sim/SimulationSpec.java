package org.axtrial.sim;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.plant.Friction;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.PlantSpec;

/**
 * How an axis is simulated. Everything is told at the motor shaft unless it says load.
 *
 * @param motor the motor
 * @param load what it moves
 * @param feedback encoder and electronic gear as the simulated drive has them, right or wrong
 * @param loops tuning of the cascade
 * @param wire how fast the simulated drive answers in process; over TCP the real wire decides
 * @param seed seed of every random number of this axis
 * @param details what else is told of the mechanics
 * @param reference switches, index mark and what the drive knows of its position
 * @param faults what is wrong with the machine, and from when on
 */
public record SimulationSpec(
        Motor motor,
        Load load,
        Feedback feedback,
        Loops loops,
        Wire wire,
        long seed,
        PlantDetails details,
        Reference reference,
        List<MachineFault.Onset> faults) {

    public SimulationSpec {
        faults = List.copyOf(faults);
    }

    /** A rigid axis without switches. */
    public SimulationSpec(Motor motor, Load load, Feedback feedback, Loops loops, Wire wire, long seed) {
        this(motor, load, feedback, loops, wire, seed, PlantDetails.PLAIN, Reference.NONE, List.of());
    }

    /** The same axis with other details of the mechanics. */
    public SimulationSpec with(PlantDetails other) {
        return new SimulationSpec(motor, load, feedback, loops, wire, seed, other, reference, faults);
    }

    /** The same axis with another feedback. */
    public SimulationSpec with(Feedback other) {
        return new SimulationSpec(motor, load, other, loops, wire, seed, details, reference, faults);
    }

    /** The same axis with another tuning. */
    public SimulationSpec with(Loops other) {
        return new SimulationSpec(motor, load, feedback, other, wire, seed, details, reference, faults);
    }

    /** The same axis with something wrong. */
    public SimulationSpec withFaults(List<MachineFault.Onset> other) {
        return new SimulationSpec(motor, load, feedback, loops, wire, seed, details, reference, other);
    }

    /** The axis as it is made: with every fault in it that it has from the start. */
    SimulationSpec asMade() {
        SimulationSpec made = this;
        for (MachineFault.Onset onset : faults) {
            if (onset.fault() instanceof MachineFault.Made fault) {
                made = fault.in(made);
            }
        }
        return made;
    }

    /** The same machine seen from its other side: what was up is down, and positions grow the other way. */
    SimulationSpec mirrored() {
        PlantDetails turned = details.withCounterbalance(-details.counterbalance());
        if (details.endStops().isPresent()) {
            turned = turned.withEndStops(details.endStops().get().mirrored());
        }
        return new SimulationSpec(
                motor, load.mirrored(), feedback, loops, wire, seed, turned, reference.mirrored(), faults);
    }

    /** The same axis with switches. */
    public SimulationSpec with(Reference other) {
        return new SimulationSpec(motor, load, feedback, loops, wire, seed, details, other, faults);
    }

    /**
     * The mechanics, referred to the motor shaft.
     *
     * @throws IllegalArgumentException if the parts do not fit each other
     */
    public PlantSpec plant() {
        return new PlantSpec(
                motor.inertia(),
                load.reflectedInertia(),
                Friction.of(load.viscous(), load.coulomb()),
                load.gravityTorque(),
                motor.ratedTorque(),
                details);
    }

    /**
     * The motor and what it can give.
     *
     * @param ratedTorque N·m, positive
     * @param maxTorque percent of rated torque, 1 … 1000
     * @param inertia rotor inertia in kg·m², positive
     * @param maxSpeed r/min, positive; the drive refuses more
     */
    public record Motor(double ratedTorque, double maxTorque, double inertia, double maxSpeed) {

        public Motor {
            positive("rated torque", ratedTorque);
            positive("max torque", maxTorque);
            positive("rotor inertia", inertia);
            positive("max speed", maxSpeed);
        }
    }

    /**
     * What the motor moves. Where gravity pulls and no other brake is told, a spring-applied brake holds two and a half
     * times its torque whenever the drive gives none, and the drive takes over the load when it opens.
     */
    public sealed interface Load {

        /** Inertia that the motor sees in kg·m². */
        double reflectedInertia();

        /** Torque that gravity puts on the shaft in N·m; positive pulls towards positive positions. */
        double gravityTorque();

        /** Viscous friction at the shaft in N·m·s/rad. */
        double viscous();

        /** Coulomb friction at the shaft in N·m. */
        double coulomb();

        /** Travel in one rad of the motor: L/2π in m, or 1 over the gear ratio in rad. */
        double travelPerRadian();

        /** The same load with gravity the other way. */
        Load mirrored();
    }

    /**
     * A rotating load behind a gearbox.
     *
     * @param inertia at the load shaft in kg·m², not negative
     * @param ratio motor revolutions for one load revolution, positive
     * @param gravityTorque at the motor shaft in N·m; positive pulls towards positive positions
     * @param viscous at the motor shaft in N·m·s/rad, not negative
     * @param coulomb at the motor shaft in N·m, not negative
     */
    public record RotaryLoad(double inertia, double ratio, double gravityTorque, double viscous, double coulomb)
            implements Load {

        public RotaryLoad {
            notNegative("load inertia", inertia);
            positive("gear ratio", ratio);
            notNegative("viscous friction", viscous);
            notNegative("Coulomb friction", coulomb);
        }

        @Override
        public RotaryLoad mirrored() {
            return new RotaryLoad(inertia, ratio, -gravityTorque, viscous, coulomb);
        }

        @Override
        public double travelPerRadian() {
            return 1 / ratio;
        }

        /** J/N². */
        @Override
        public double reflectedInertia() {
            return inertia / (ratio * ratio);
        }
    }

    /**
     * A mass on a screw or belt.
     *
     * @param mass moving mass in kg, not negative
     * @param lead travel for one motor revolution in m, positive
     * @param gravityForce N along the axis; positive pulls towards positive positions
     * @param viscous at the motor shaft in N·m·s/rad, not negative
     * @param coulomb at the motor shaft in N·m, not negative
     */
    public record LinearLoad(double mass, double lead, double gravityForce, double viscous, double coulomb)
            implements Load {

        public LinearLoad {
            notNegative("mass", mass);
            positive("lead", lead);
            notNegative("viscous friction", viscous);
            notNegative("Coulomb friction", coulomb);
        }

        @Override
        public LinearLoad mirrored() {
            return new LinearLoad(mass, lead, -gravityForce, viscous, coulomb);
        }

        @Override
        public double travelPerRadian() {
            return lead / (2 * Math.PI);
        }

        /** m·(L/2π)². */
        @Override
        public double reflectedInertia() {
            double perRadian = lead / (2 * Math.PI);
            return mass * perRadian * perRadian;
        }

        /** F·L/2π. */
        @Override
        public double gravityTorque() {
            return gravityForce * lead / (2 * Math.PI);
        }
    }

    /**
     * What the position register counts.
     *
     * @param encoderCounts counts in one motor revolution, 1 … 2³²
     * @param gearNumerator encoder counts … positive
     * @param gearDenominator … for so many register counts, positive
     * @param startCounts position register when the simulation starts
     * @param noise standard deviation of a reading in encoder counts, not negative
     * @param turns motor revolutions that the encoder tells apart when it is switched on, positive; 1 is single-turn
     */
    public record Feedback(
            long encoderCounts, long gearNumerator, long gearDenominator, long startCounts, double noise, long turns) {

        /** Turns that a multi-turn encoder tells apart unless something else is told: 12 bits, common practice. */
        public static final long MULTI_TURN = 4096;

        public Feedback {
            positive("encoder counts", (double) encoderCounts);
            positive("gear numerator", (double) gearNumerator);
            positive("gear denominator", (double) gearDenominator);
            notNegative("encoder noise", noise);
            positive("encoder turns", (double) turns);
        }

        /** A multi-turn encoder without noise. */
        public Feedback(long encoderCounts, long gearNumerator, long gearDenominator, long startCounts) {
            this(encoderCounts, gearNumerator, gearDenominator, startCounts, 0, MULTI_TURN);
        }

        /** The same with noise of so many encoder counts. */
        public Feedback withNoise(double counts) {
            return new Feedback(encoderCounts, gearNumerator, gearDenominator, startCounts, counts, turns);
        }

        /** Register counts for one motor revolution. */
        public double countsPerMotorRevolution() {
            return (double) encoderCounts * gearDenominator / gearNumerator;
        }
    }

    /**
     * Tuning of the torque, speed and position loops. They are sampled every 125, 62.5 or 31.25 µs, whichever suffices.
     *
     * @param torqueBandwidth Hz, of the closed current loop seen as first order, at most 5000
     * @param speedBandwidth Hz, crossover of the speed PI loop, at most 1250; its gains follow from the total inertia
     * @param positionGain Kv in 1/s
     * @param speedFeedForward 0 … 1, share of the demand speed that bypasses the position loop
     * @param inPositionCounts half-width of the in-position window, register counts
     * @param inPositionTime how long the position must stay in it
     * @param followingErrorTrip register counts; more for longer than 10 ms trips the drive
     * @param accelerationFeedForward 0 … 1, share of the torque for the demand acceleration, total inertia × demand
     *     acceleration, that bypasses the speed loop
     * @param speedGains gains of the speed loop where they do not follow from its bandwidth, which then only says how
     *     fast the loops have to be sampled
     */
    public record Loops(
            double torqueBandwidth,
            double speedBandwidth,
            double positionGain,
            double speedFeedForward,
            double inPositionCounts,
            Duration inPositionTime,
            double followingErrorTrip,
            double accelerationFeedForward,
            Optional<SpeedGains> speedGains) {

        /** Loops whose speed gains follow from the bandwidth, without acceleration feed-forward. */
        public Loops(
                double torqueBandwidth,
                double speedBandwidth,
                double positionGain,
                double speedFeedForward,
                double inPositionCounts,
                Duration inPositionTime,
                double followingErrorTrip) {
            this(
                    torqueBandwidth,
                    speedBandwidth,
                    positionGain,
                    speedFeedForward,
                    inPositionCounts,
                    inPositionTime,
                    followingErrorTrip,
                    0,
                    Optional.empty());
        }

        public Loops {
            positive("torque bandwidth", torqueBandwidth);
            positive("speed bandwidth", speedBandwidth);
            positive("position gain", positionGain);
            if (!(speedFeedForward >= 0 && speedFeedForward <= 1)) {
                throw new IllegalArgumentException("speed feed-forward must be 0 … 1, got " + speedFeedForward);
            }
            positive("in-position window", inPositionCounts);
            if (inPositionTime.isNegative()) {
                throw new IllegalArgumentException("in-position time must not be negative, got " + inPositionTime);
            }
            positive("following error trip", followingErrorTrip);
            if (!(accelerationFeedForward >= 0 && accelerationFeedForward <= 1)) {
                throw new IllegalArgumentException(
                        "acceleration feed-forward must be 0 … 1, got " + accelerationFeedForward);
            }
        }

        /** The same with other gains, as multiples of these. */
        Loops scaled(double position, double speed) {
            return new Loops(
                    torqueBandwidth,
                    speedBandwidth * speed,
                    positionGain * position,
                    speedFeedForward,
                    inPositionCounts,
                    inPositionTime,
                    followingErrorTrip,
                    accelerationFeedForward,
                    speedGains.map(
                            gains -> new SpeedGains(gains.proportional() * speed, gains.integral() * speed * speed)));
        }
    }

    /**
     * Gains of the speed loop at the motor shaft. With the total inertia J the natural frequency is √(integral/J) and the
     * damping proportional / (2·√(integral·J)).
     *
     * @param proportional N·m·s/rad, positive
     * @param integral N·m/rad, not negative
     */
    public record SpeedGains(double proportional, double integral) {

        public SpeedGains {
            positive("proportional speed gain", proportional);
            notNegative("integral speed gain", integral);
        }
    }

    /**
     * Switches, index mark and what the drive knows of its position. Places are motor revolutions from where the shaft
     * stands when the simulation starts, positive towards growing counts.
     *
     * @param negativeLimit where the negative limit switch is active, digital input 60FDh bit 0
     * @param positiveLimit where the positive limit switch is active, bit 1
     * @param home where the home switch is active, bit 2
     * @param indexOffset place of the index mark, which comes once in each motor revolution
     * @param absolute whether the encoder keeps the position over a loss of supply
     * @param longestSearch motor revolutions, positive; a homing that takes more way ends with an error
     * @param jerk motor revolutions/s³ that profiles keep to; empty for trapezoids
     */
    public record Reference(
            Optional<SwitchRange> negativeLimit,
            Optional<SwitchRange> positiveLimit,
            Optional<SwitchRange> home,
            double indexOffset,
            boolean absolute,
            double longestSearch,
            OptionalDouble jerk) {

        /** Homing without an own limit gives up after so many motor revolutions. */
        public static final double LONGEST_SEARCH = 1000;

        /** No switch, the index mark at the start, an incremental encoder, trapezoids. */
        public static final Reference NONE = new Reference(
                Optional.empty(), Optional.empty(), Optional.empty(), 0, false, LONGEST_SEARCH, OptionalDouble.empty());

        public Reference {
            if (!Double.isFinite(indexOffset)) {
                throw new IllegalArgumentException("the place of the index mark must be finite, got " + indexOffset);
            }
            positive("longest search", longestSearch);
            if (jerk.isPresent()) {
                positive("jerk", jerk.getAsDouble());
            }
        }

        /** The same switches seen from the other side; each stays wired to its input. */
        Reference mirrored() {
            return new Reference(
                    negativeLimit.map(SwitchRange::mirrored),
                    positiveLimit.map(SwitchRange::mirrored),
                    home.map(SwitchRange::mirrored),
                    -indexOffset,
                    absolute,
                    longestSearch,
                    jerk);
        }
    }

    /**
     * Where a switch is active, in motor revolutions.
     *
     * @param from lower end, negative infinity for a switch that stays active to the end of the travel
     * @param to upper end, above {@code from}, or positive infinity
     * @param hysteresis way beyond an end at which it opens again, not negative
     */
    public record SwitchRange(double from, double to, double hysteresis) {

        public SwitchRange {
            if (!(from < to)) {
                throw new IllegalArgumentException("a switch is active from … to, got " + from + " … " + to);
            }
            notNegative("switch hysteresis", hysteresis);
        }

        SwitchRange mirrored() {
            return new SwitchRange(-to, -from, hysteresis);
        }

        /** Active from a place on, towards growing counts. */
        public static SwitchRange above(double from, double hysteresis) {
            return new SwitchRange(from, Double.POSITIVE_INFINITY, hysteresis);
        }

        /** Active up to a place, towards falling counts. */
        public static SwitchRange below(double to, double hysteresis) {
            return new SwitchRange(Double.NEGATIVE_INFINITY, to, hysteresis);
        }
    }

    /**
     * How fast the drive answers.
     *
     * @param shortest shortest time from request to reply
     * @param longest longest time from request to reply, not below {@code shortest}; each exchange takes a seeded
     *     random time between
     */
    public record Wire(Duration shortest, Duration longest) {

        public Wire {
            if (shortest.isNegative() || longest.compareTo(shortest) < 0) {
                throw new IllegalArgumentException(
                        "reply times must not be negative and must grow, got " + shortest + " … " + longest);
            }
        }
    }

    static void positive(String what, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must be positive and finite, got " + value);
        }
    }

    private static void notNegative(String what, double value) {
        if (!(value >= 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must be finite and not negative, got " + value);
        }
    }
}
