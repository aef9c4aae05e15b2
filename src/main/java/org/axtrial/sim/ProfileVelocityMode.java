package org.axtrial.sim;

import java.time.Duration;

/**
 * Profile velocity (mode 3). The target speed is reached when the shaft has been within 1 % of the highest speed about it
 * for 10 ms. At a limit the demand is zero until a target speed is ordered that leads away, or the limit is gone and the
 * target speed is ordered again: what let go of a switch must not start an axis.
 */
final class ProfileVelocityMode extends Cia402Mode {

    private static final Duration WINDOW_TIME = Duration.ofMillis(10);
    private static final double WINDOW = 0.01;

    private final int windowSteps;
    private double targetSpeed;
    private double followedSpeed;
    private double stoppedDirection;
    private int stepsAtSpeed;
    private boolean halted;
    private boolean operating;

    ProfileVelocityMode(Firmware firmware) {
        super(firmware);
        this.windowSteps = servo.steps(WINDOW_TIME);
    }

    /** Target velocity 60FFh in counts/s, acted on at once. */
    void targetSpeed(double wanted) {
        targetSpeed = wanted;
        stoppedDirection = 0;
        follow();
    }

    @Override
    void begin(boolean alreadyHalted) {
        operating = true;
        halted = alreadyHalted;
        stoppedDirection = 0;
        followedSpeed = 0;
        stepsAtSpeed = 0;
        follow();
    }

    @Override
    void end() {
        operating = false;
    }

    private boolean mayFollow() {
        double direction = Math.signum(targetSpeed);
        if (direction != 0 && limits.block(direction)) {
            stoppedDirection = direction;
        }
        return direction == 0 || direction != stoppedDirection;
    }

    private void follow() {
        if (!operating || halted) {
            return;
        }
        double speed = mayFollow() ? targetSpeed : 0;
        stepsAtSpeed = 0;
        if (speed != 0 && speed != followedSpeed) {
            firmware.countMotion();
        }
        followedSpeed = speed;
        firmware.keepSpeed(speed);
    }

    @Override
    void halt(boolean ordered) {
        halted = ordered;
        if (halted) {
            followedSpeed = 0;
        } else {
            follow();
        }
    }

    /** A new acceleration counts at once. */
    @Override
    void settingsChanged() {
        if (!servo.profile().ramped()) {
            follow();
        }
    }

    @Override
    void stoppedAtLimit() {
        stoppedDirection = Math.signum(servo.profile().speed());
        followedSpeed = 0;
    }

    @Override
    void tick() {
        boolean idle = operating && !halted && followedSpeed == 0 && targetSpeed != 0;
        // Ordered away from a limit while still on the ramp that the limit had begun.
        if (idle && !servo.profile().running() && mayFollow()) {
            follow();
        }
        double error = targetSpeed - servo.speed() / servo.radiansPerCount();
        if (Math.abs(error) > WINDOW * settings.mostSpeed()) {
            stepsAtSpeed = 0;
        } else if (stepsAtSpeed < windowSteps) {
            stepsAtSpeed++;
        }
    }

    @Override
    boolean waiting() {
        return stepsAtSpeed < windowSteps;
    }

    @Override
    boolean reached() {
        return stepsAtSpeed >= windowSteps;
    }

    @Override
    int statusBits() {
        return servo.atStandstill() ? BIT_12 : 0;
    }
}
