package org.axtrial.sim;

import java.time.Duration;
import java.util.function.Consumer;
import org.axtrial.plant.Encoder;
import org.axtrial.plant.EncoderSpec;
import org.axtrial.plant.Plant;
import org.axtrial.plant.PlantSpec;

/**
 * Plant, loops and set-point generator of one axis, and what a drive supervises at that level. Steps on primitives
 * with a fixed width and allocates nothing.
 *
 * <p>Positions are register counts since the simulation started. The shaft angle is rounded to whole encoder counts,
 * then the electronic gear is applied and rounded down, as counting hardware does.
 */
final class Servo {

    static final double FOLLOWING_ERROR_SECONDS = 0.010;
    private static final long ENCODER_SEED = 0x656E_636F_6465_7221L;

    private final double step;
    private final long stepNanos;
    private final Plant plant;
    private final Cascade cascade;
    private final Profile profile;
    private final Encoder encoder;
    private final double gearNumerator;
    private final double gearDenominator;
    private final boolean geared;
    private final double radiansPerCount;
    private final double ratedTorque;
    private final double mostTorque;
    private final double mostSpeed;

    private double inPositionCounts;
    private int inPositionSteps;
    private double followingErrorTrip;
    private int followingErrorSteps;
    private boolean energised;
    private boolean torqueControlled;
    private double torqueDemand;
    private double torqueTarget;
    private double torqueSlope;
    private double torqueLimit;
    private double counts;
    private int stepsInPosition;
    private int stepsTooFar;
    private boolean steady;

    Servo(SimulationSpec spec) {
        this.stepNanos = stepNanos(spec.loops());
        this.step = stepNanos * 1e-9;
        PlantSpec mechanics = spec.plant();
        double inertia = mechanics.motorInertia() + mechanics.loadInertia();
        this.plant = new Plant(mechanics, step);
        this.mostSpeed = spec.motor().maxSpeed() * 2 * Math.PI / 60;
        this.cascade = new Cascade(Cascade.Gains.tuned(spec.loops(), inertia), mostSpeed, step);
        this.profile = new Profile(step);
        SimulationSpec.Feedback feedback = spec.feedback();
        this.encoder = encoder(feedback, spec.seed());
        this.gearNumerator = feedback.gearNumerator();
        this.gearDenominator = feedback.gearDenominator();
        this.geared = feedback.gearNumerator() != feedback.gearDenominator();
        this.radiansPerCount = 2 * Math.PI / feedback.countsPerMotorRevolution();
        this.ratedTorque = spec.motor().ratedTorque();
        this.mostTorque = ratedTorque * spec.motor().maxTorque() / 100;
        this.torqueLimit = mostTorque;
        this.inPositionCounts = spec.loops().inPositionCounts();
        this.inPositionSteps = steps(spec.loops().inPositionTime());
        this.followingErrorTrip = spec.loops().followingErrorTrip();
        this.followingErrorSteps = (int) Math.round(FOLLOWING_ERROR_SECONDS / step);
    }

    private static Encoder encoder(SimulationSpec.Feedback feedback, long seed) {
        double noise = feedback.noise() * 2 * Math.PI / feedback.encoderCounts();
        // Another sequence than that of the reply times, which starts from the bare seed.
        return new Encoder(
                new EncoderSpec((double) feedback.encoderCounts(), 0, noise, feedback.turns()), seed ^ ENCODER_SEED);
    }

    /**
     * The widest of 125, 62.5 and 31.25 µs that samples the loops fast enough: 2π·f·h at most 1 for the torque loop and
     * at most 0.25 for the speed loop, where the sampled loop still behaves like the continuous one.
     *
     * @throws IllegalArgumentException if none does
     */
    static long stepNanos(SimulationSpec.Loops loops) {
        for (long nanos = 125_000; nanos >= 31_250; nanos /= 2) {
            double radians = 2 * Math.PI * nanos * 1e-9;
            if (radians * loops.torqueBandwidth() <= 1 && radians * loops.speedBandwidth() <= 0.25) {
                return nanos;
            }
        }
        throw new IllegalArgumentException(
                "the simulation samples every 31.25 µs, which serves a torque bandwidth up to 5000 Hz and a speed bandwidth up"
                        + " to 1250 Hz, got " + loops.torqueBandwidth() + " and " + loops.speedBandwidth());
    }

    /** Width of a step in ns. */
    long stepNanos() {
        return stepNanos;
    }

    /** A time in whole steps, rounded up. */
    int steps(Duration time) {
        return (int) Math.min(Integer.MAX_VALUE, (time.toNanos() + stepNanos - 1) / stepNanos);
    }

    /** Lets one step pass. */
    void step() {
        double torqueBefore = cascade.torque();
        double integralBefore = cascade.integral();
        if (energised) {
            plant.step(torqueControlled ? torqueOnDemand() : torqueOfLoops(plant.motorSpeed()), false);
        } else {
            plant.step(0, true);
        }
        counts = countsAt(plant.motorAngle());
        if (torqueControlled) {
            profile.follow(counts, plant.motorSpeed() / radiansPerCount);
        }
        boolean settled = supervise();
        steady = settled
                && !profile.running()
                && (!torqueControlled || torqueDemand == torqueTarget)
                && plant.settled()
                && !encoder.noisy()
                && cascade.torque() == torqueBefore
                && cascade.integral() == integralBefore;
    }

    private double torqueOfLoops(double speed) {
        profile.step();
        double error = (profile.position() - counts) * radiansPerCount;
        double demandSpeed = profile.speed() * radiansPerCount;
        double demandAcceleration = profile.acceleration() * radiansPerCount;
        return cascade.step(error, demandSpeed, demandAcceleration, speed, torqueLimit);
    }

    /** Torque by its own demand, which is taken away in the direction in which the motor has its highest speed. */
    private double torqueOnDemand() {
        double most = torqueSlope * step;
        torqueDemand += Math.max(-most, Math.min(most, torqueTarget - torqueDemand));
        boolean tooFast = Math.abs(plant.motorSpeed()) >= mostSpeed && plant.motorSpeed() * torqueDemand > 0;
        return cascade.follow(tooFast ? 0 : torqueDemand, torqueLimit);
    }

    /** Register counts since the start at a shaft angle in rad. */
    double countsAt(double angle) {
        double read = encoder.read(angle);
        // The product is whole and the quotient correctly rounded, so the floor is exact below 2^53 counts.
        return geared ? Math.floor(read * gearDenominator / gearNumerator) : read;
    }

    /** Counts the steps in position and too far behind; true when neither counter would change in another step. */
    private boolean supervise() {
        boolean settled = true;
        if (Math.abs(profile.target() - counts) <= inPositionCounts) {
            if (stepsInPosition < inPositionSteps) {
                stepsInPosition++;
                settled = false;
            }
        } else {
            stepsInPosition = 0;
        }
        if (energised && Math.abs(profile.position() - counts) > followingErrorTrip) {
            stepsTooFar++;
            settled = false;
        } else {
            stepsTooFar = 0;
        }
        return settled;
    }

    /**
     * Whether another step would change nothing but the winding temperature, so that time may pass without stepping. An
     * encoder with noise never reads the same twice and is never steady.
     */
    boolean steady() {
        return steady;
    }

    /** Lets so many steps pass at once, which only a steady axis allows. */
    void rest(long steps) {
        plant.rest(steps);
    }

    /** The mechanics, to look at. */
    Plant plant() {
        return plant;
    }

    /** Changes the mechanics while they run. */
    void change(Consumer<Plant> change) {
        steady = false;
        change.accept(plant);
    }

    /**
     * Register counts in the whole turns that the encoder cannot tell apart when the supply comes back: it takes its shaft
     * to be within half of its turns about the place where the simulation began.
     */
    double turnsLostWithSupply() {
        double read = encoder.read(plant.motorAngle());
        double half = encoder.range() / 2;
        double lost = read - (encoder.absolute(read + half) - half);
        return lost * gearDenominator / gearNumerator;
    }

    /** Lets the encoder slip on its shaft by so many rad. */
    void slipEncoder(double radians) {
        steady = false;
        encoder.slip(radians);
    }

    /** Lets at least one more step pass, because something else has changed. */
    void look() {
        steady = false;
    }

    /** Gives torque; the demand starts from the shaft and a shaft that turns is ramped down. */
    void energise(double deceleration) {
        if (!energised) {
            energised = true;
            cascade.preset(Math.max(-torqueLimit, Math.min(torqueLimit, -plant.pull())));
            profile.follow(counts, plant.motorSpeed() / radiansPerCount);
            stopAtOnce(deceleration);
        }
    }

    /** Takes the torque away at once; the shaft runs out on friction, and on its brake where gravity pulls. */
    void release() {
        energised = false;
        torqueControlled = false;
        cascade.release();
        profile.follow(counts, 0);
        touched();
    }

    /** Turns the shaft from outside, which only a motor without torque allows. */
    void turnByHand(double radians) {
        plant.turn(radians);
        counts = countsAt(plant.motorAngle());
        steady = false;
    }

    boolean energised() {
        return energised;
    }

    /**
     * Lets the torque follow a demand instead of the loops, from the torque that stands now.
     *
     * @param target N·m
     * @param slope change of the demand in N·m/s, positive
     */
    void driveTorque(double target, double slope) {
        if (!torqueControlled) {
            torqueControlled = true;
            torqueDemand = cascade.torque();
        }
        torqueTarget = target;
        torqueSlope = slope;
        touched();
    }

    /** Torque that the demand stands at in N·m, while the torque follows one. */
    double torqueDemand() {
        return torqueDemand;
    }

    boolean torqueControlled() {
        return torqueControlled;
    }

    /** The loops take over where torque was controlled, from the shaft as it turns. */
    private void takeOver() {
        if (torqueControlled) {
            torqueControlled = false;
            profile.follow(counts, plant.motorSpeed() / radiansPerCount);
        }
    }

    /** Limits the jerk of profiles in counts/s³; infinite for trapezoids. */
    void limitJerk(double most) {
        profile.limitJerk(most);
    }

    /** Says when the shaft counts as in position. */
    void watchPosition(double window, Duration time) {
        inPositionCounts = window;
        inPositionSteps = steps(time);
        touched();
    }

    /** Says when the shaft counts as left behind; a window of infinite counts ends the supervision. */
    void watchFollowing(double window, Duration time) {
        followingErrorTrip = window;
        followingErrorSteps = Math.max(1, steps(time));
        steady = false;
    }

    double inPositionCounts() {
        return inPositionCounts;
    }

    double followingErrorTrip() {
        return followingErrorTrip;
    }

    /** Moves to whole counts; speed in counts/s, rates in counts/s². */
    void move(double toCounts, double speed, double acceleration, double deceleration) {
        takeOver();
        profile.move(toCounts, speed, acceleration, deceleration);
        touched();
    }

    /** Keeps a signed speed in counts/s from now on. */
    void keepSpeed(double speed, double acceleration, double deceleration) {
        takeOver();
        profile.keepSpeed(speed, acceleration, deceleration);
        touched();
    }

    /** Ramps down to rest and holds. */
    void stop(double deceleration) {
        takeOver();
        profile.stop(deceleration);
        touched();
    }

    /** Ramps down to rest at that rate from now on, whatever the jerk limit, and holds. */
    void stopAtOnce(double deceleration) {
        takeOver();
        profile.stopAtOnce(deceleration);
        touched();
    }

    /** Ramps down from the true position and speed instead of from a demand that the shaft did not follow. */
    void stopFromShaft(double deceleration) {
        torqueControlled = false;
        profile.follow(counts, plant.motorSpeed() / radiansPerCount);
        stopAtOnce(deceleration);
    }

    private void touched() {
        steady = false;
        stepsInPosition = 0;
    }

    /** Limits the torque to so many percent of rated, but never above what the motor can give. */
    void limitTorque(double percent) {
        torqueLimit = Math.min(mostTorque, ratedTorque * percent / 100);
        steady = false;
    }

    /** Whether the shaft has been in the window about its target for the time asked; false in endless motion. */
    boolean inPosition() {
        return energised
                && stepsInPosition >= inPositionSteps
                && Math.abs(profile.target() - counts) <= inPositionCounts;
    }

    /** Whether the shaft was too far from its demand for too long. */
    boolean leftBehind() {
        return stepsTooFar >= followingErrorSteps;
    }

    /** Whether the shaft turns slower than 0.1 % of the motor's highest speed. */
    boolean atStandstill() {
        return Math.abs(plant.motorSpeed()) < 0.001 * mostSpeed;
    }

    boolean torqueLimited() {
        return energised && cascade.limited();
    }

    Profile profile() {
        return profile;
    }

    /** Actual position in whole register counts since the start. */
    double counts() {
        return counts;
    }

    /** True shaft angle in rad since the start. */
    double angle() {
        return plant.motorAngle();
    }

    /** True shaft speed in rad/s. */
    double speed() {
        return plant.motorSpeed();
    }

    /** Torque of the motor in N·m. */
    double torque() {
        return cascade.torque();
    }

    double torqueLimit() {
        return torqueLimit;
    }

    double ratedTorque() {
        return ratedTorque;
    }

    /** Highest motor speed in rad/s. */
    double mostSpeed() {
        return mostSpeed;
    }

    double radiansPerCount() {
        return radiansPerCount;
    }
}
