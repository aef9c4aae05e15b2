package org.axtrial.sim;

import java.util.Set;
import org.axtrial.registers.SignalNames;

/** The registers that shape the next motion, in counts, seconds and N·m. */
final class MoveSettings implements Settings {

    static final int LINEAR_RAMP = 0;
    static final int JERK_FREE_RAMP = 2;
    static final int JERK_LIMITED_RAMP = 3;

    private static final Set<String> NAMES = Set.of(
            SignalNames.PROFILE_SPEED,
            SignalNames.PROFILE_ACCELERATION,
            SignalNames.PROFILE_DECELERATION,
            SignalNames.QUICK_STOP_DECELERATION,
            SignalNames.PROFILE_TYPE,
            SignalNames.PROFILE_JERK,
            SignalNames.TORQUE_LIMIT,
            SignalNames.TORQUE_SLOPE);

    /** Without another order the highest acceleration is reached in so many seconds. */
    private static final double JERK_SECONDS = 0.01;

    private final ShaftScale scale;
    private final Servo servo;
    private final double mostSpeed;
    private final boolean ownDeceleration;
    private final boolean ownQuickStop;

    private double speed;
    private double acceleration;
    private double deceleration;
    private double quickStopDeceleration;
    private int profileType;
    private double jerk;
    private double torqueSlope;

    /**
     * A tenth of the motor's highest speed, reached in a tenth of a second; rated torque in a second.
     *
     * @param jerk counts/s³ to which profiles keep from the start, infinite for trapezoids
     */
    MoveSettings(ShaftScale scale, Servo servo, double jerk) {
        this.scale = scale;
        this.servo = servo;
        this.mostSpeed = servo.mostSpeed() / servo.radiansPerCount();
        this.ownDeceleration = scale.declares(SignalNames.PROFILE_DECELERATION);
        this.ownQuickStop = scale.declares(SignalNames.QUICK_STOP_DECELERATION);
        this.speed = mostSpeed / 10;
        this.acceleration = mostSpeed;
        this.deceleration = mostSpeed;
        this.quickStopDeceleration = mostSpeed;
        boolean limited = jerk < Double.POSITIVE_INFINITY;
        this.profileType = limited ? JERK_LIMITED_RAMP : LINEAR_RAMP;
        this.jerk = limited ? jerk : mostSpeed / JERK_SECONDS;
        this.torqueSlope = servo.ratedTorque();
        servo.limitTorque(Double.POSITIVE_INFINITY);
        shape();
    }

    @Override
    public boolean has(String name) {
        return NAMES.contains(name);
    }

    @Override
    public double start(String name) {
        double factor = scale.factor(name);
        return switch (name) {
            case SignalNames.PROFILE_SPEED -> speed / factor;
            case SignalNames.PROFILE_ACCELERATION -> acceleration / factor;
            case SignalNames.PROFILE_DECELERATION -> deceleration / factor;
            case SignalNames.QUICK_STOP_DECELERATION -> quickStopDeceleration / factor;
            case SignalNames.PROFILE_TYPE -> profileType;
            case SignalNames.PROFILE_JERK -> jerk / factor;
            case SignalNames.TORQUE_LIMIT -> servo.torqueLimit() / factor;
            case SignalNames.TORQUE_SLOPE -> torqueSlope / factor;
            default -> throw Settings.foreign(name);
        };
    }

    @Override
    public boolean accept(String name, double value) {
        double scaled = value * scale.factor(name);
        boolean taken = switch (name) {
            case SignalNames.PROFILE_SPEED -> scaled > 0 && !tooFast(scaled);
            case SignalNames.TORQUE_LIMIT -> scaled >= 0;
            case SignalNames.PROFILE_TYPE ->
                value == LINEAR_RAMP || value == JERK_FREE_RAMP || value == JERK_LIMITED_RAMP;
            default -> scaled > 0 && scaled < Double.POSITIVE_INFINITY;
        };
        if (taken) {
            take(name, scaled);
        }
        return taken;
    }

    private void take(String name, double scaled) {
        switch (name) {
            case SignalNames.PROFILE_SPEED -> speed = scaled;
            case SignalNames.PROFILE_ACCELERATION -> acceleration = scaled;
            case SignalNames.PROFILE_DECELERATION -> deceleration = scaled;
            case SignalNames.QUICK_STOP_DECELERATION -> quickStopDeceleration = scaled;
            case SignalNames.PROFILE_TYPE -> profileType = (int) scaled;
            case SignalNames.PROFILE_JERK -> jerk = scaled;
            case SignalNames.TORQUE_LIMIT -> servo.limitTorque(100 * scaled / servo.ratedTorque());
            case SignalNames.TORQUE_SLOPE -> torqueSlope = scaled;
            default -> throw Settings.foreign(name);
        }
        shape();
    }

    private void shape() {
        servo.limitJerk(profileType == LINEAR_RAMP ? Double.POSITIVE_INFINITY : jerk);
    }

    /** A signed speed register in counts/s. */
    double speedOf(String name, double value) {
        return value * scale.factor(name);
    }

    /** A signed torque register in N·m. */
    double torqueOf(String name, double value) {
        return value * scale.factor(name);
    }

    /** Whether a speed in counts/s is above what the motor may turn; a rounding more is not. */
    boolean tooFast(double countsPerSecond) {
        return !(Math.abs(countsPerSecond) <= mostSpeed * (1 + 1e-9));
    }

    double mostSpeed() {
        return mostSpeed;
    }

    double speed() {
        return speed;
    }

    double acceleration() {
        return acceleration;
    }

    double deceleration() {
        return ownDeceleration ? deceleration : acceleration;
    }

    /** Rate of the quick stop ramp; the usual deceleration where the drive has no register for it. */
    double quickStopDeceleration() {
        return ownQuickStop ? quickStopDeceleration : deceleration();
    }

    /** N·m/s. */
    double torqueSlope() {
        return torqueSlope;
    }
}
