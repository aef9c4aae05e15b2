package org.axtrial.sim;

import java.time.Duration;
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
 */
public record SimulationSpec(
        Motor motor, Load load, Feedback feedback, Loops loops, Wire wire, long seed, PlantDetails details) {

    /** An axis whose mechanics are a rigid train and nothing else. */
    public SimulationSpec(Motor motor, Load load, Feedback feedback, Loops loops, Wire wire, long seed) {
        this(motor, load, feedback, loops, wire, seed, PlantDetails.PLAIN);
    }

    /** The same with other details of the mechanics. */
    public SimulationSpec with(PlantDetails other) {
        return new SimulationSpec(motor, load, feedback, loops, wire, seed, other);
    }

    /** The same with another feedback. */
    public SimulationSpec with(Feedback other) {
        return new SimulationSpec(motor, load, other, loops, wire, seed, details);
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
     */
    public record Loops(
            double torqueBandwidth,
            double speedBandwidth,
            double positionGain,
            double speedFeedForward,
            double inPositionCounts,
            Duration inPositionTime,
            double followingErrorTrip) {

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

    private static void positive(String what, double value) {
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
