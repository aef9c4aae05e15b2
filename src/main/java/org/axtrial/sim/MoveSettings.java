package org.axtrial.sim;

import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;

/** The registers that shape the next motion, in counts and seconds. */
final class MoveSettings {

    private final DriveDescription description;
    private final ShaftScale scale;
    private final Servo servo;
    private final double mostSpeed;
    private final boolean ownDeceleration;

    private double speed;
    private double acceleration;
    private double deceleration;

    /** A tenth of the motor's highest speed, reached in a tenth of a second. */
    MoveSettings(DriveDescription description, ShaftScale scale, Servo servo) {
        this.description = description;
        this.scale = scale;
        this.servo = servo;
        this.mostSpeed = servo.mostSpeed() / servo.radiansPerCount();
        this.ownDeceleration = description.has(SignalNames.PROFILE_DECELERATION);
        this.speed = mostSpeed / 10;
        this.acceleration = mostSpeed;
        this.deceleration = mostSpeed;
    }

    /** The start value of a settings register in its unit. */
    double start(String signal) {
        double factor = scale.factor(description.signal(signal));
        return switch (signal) {
            case SignalNames.PROFILE_SPEED -> speed / factor;
            case SignalNames.PROFILE_ACCELERATION -> acceleration / factor;
            case SignalNames.PROFILE_DECELERATION -> deceleration / factor;
            case SignalNames.TORQUE_LIMIT -> servo.torqueLimit() / factor;
            default -> throw new IllegalArgumentException("not a setting: " + signal);
        };
    }

    static boolean isSetting(String signal) {
        return switch (signal) {
            case SignalNames.PROFILE_SPEED,
                    SignalNames.PROFILE_ACCELERATION,
                    SignalNames.PROFILE_DECELERATION,
                    SignalNames.TORQUE_LIMIT -> true;
            default -> false;
        };
    }

    /** Takes a written setting; false if the drive refuses the value. */
    boolean accept(String signal, double value) {
        double scaled = value * scale.factor(description.signal(signal));
        switch (signal) {
            case SignalNames.PROFILE_SPEED -> {
                if (!(scaled > 0) || tooFast(scaled)) {
                    return false;
                }
                speed = scaled;
            }
            case SignalNames.PROFILE_ACCELERATION -> {
                if (!(scaled > 0) || Double.isInfinite(scaled)) {
                    return false;
                }
                acceleration = scaled;
            }
            case SignalNames.PROFILE_DECELERATION -> {
                if (!(scaled > 0) || Double.isInfinite(scaled)) {
                    return false;
                }
                deceleration = scaled;
            }
            case SignalNames.TORQUE_LIMIT -> {
                if (!(scaled >= 0)) {
                    return false;
                }
                servo.limitTorque(100 * scaled / servo.ratedTorque());
            }
            default -> throw new IllegalArgumentException("not a setting: " + signal);
        }
        return true;
    }

    /** A signed speed register in counts/s. */
    double speedOf(String signal, double value) {
        return value * scale.factor(description.signal(signal));
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
}
