package org.axtrial.sim;

import java.time.Duration;
import org.axtrial.registers.SignalNames;

/**
 * Profile position (mode 1) and profile velocity (mode 3) of CiA 402 while operation is enabled: set-point handshake by
 * controlword bit 4 and statusword bit 12, change immediately (bit 5), relative (bit 6), halt (bit 8).
 *
 * <p>A relative set-point counts from the set-point before it; after enabling, a stop or a change of mode from the
 * demand at rest. A set-point that arrives while another one runs, without change immediately, is kept until that one
 * has been travelled; bit 12 stays set for so long.
 */
final class Cia402Motion {

    private static final int MODE_PROFILE_POSITION = 1;
    private static final int MODE_PROFILE_VELOCITY = 3;
    private static final int CONTROL_NEW_SET_POINT = 1 << 4;
    private static final int CONTROL_CHANGE_IMMEDIATELY = 1 << 5;
    private static final int CONTROL_RELATIVE = 1 << 6;
    private static final int CONTROL_HALT = 1 << 8;
    private static final int BIT_TARGET_REACHED = 1 << 10;
    private static final int BIT_ACKNOWLEDGE_OR_SPEED_ZERO = 1 << 12;
    private static final int BIT_FOLLOWING_ERROR = 1 << 13;
    private static final Duration SPEED_WINDOW_TIME = Duration.ofMillis(10);
    private static final double SPEED_WINDOW = 0.01;

    private final Firmware firmware;
    private final Servo servo;
    private final MoveSettings settings;
    private final int speedWindowSteps;

    private int orderedMode;
    private int mode;
    private double targetPosition;
    private double targetSpeed;
    private double followedSpeed;

    private boolean acknowledged;
    private boolean halted;
    private boolean disabling;
    private double lastTarget;
    private boolean unfinished;
    private boolean buffered;
    private double bufferedTarget;
    private double moveSpeed;
    private double moveAcceleration;
    private double moveDeceleration;
    private int stepsAtSpeed;

    Cia402Motion(Firmware firmware) {
        this.firmware = firmware;
        this.servo = firmware.servo;
        this.settings = firmware.settings;
        this.speedWindowSteps = servo.steps(SPEED_WINDOW_TIME);
    }

    /** Operation has just been enabled. */
    void begin(int control) {
        halted = (control & CONTROL_HALT) != 0;
        disabling = false;
        mode = orderedMode;
        holdHere();
        followTargetSpeed();
    }

    /** Operation is no longer enabled. */
    void end() {
        acknowledged = false;
        buffered = false;
        unfinished = false;
        disabling = false;
        mode = orderedMode;
    }

    private void holdHere() {
        lastTarget = Math.rint(servo.profile().target());
        unfinished = false;
        buffered = false;
        stepsAtSpeed = 0;
        followedSpeed = 0;
    }

    boolean orderMode(int wanted) {
        if (wanted != 0 && wanted != MODE_PROFILE_POSITION && wanted != MODE_PROFILE_VELOCITY) {
            return false;
        }
        orderedMode = wanted;
        if (!servo.energised()) {
            mode = wanted;
        }
        return true;
    }

    boolean targetPosition(double value) {
        targetPosition = value;
        return true;
    }

    boolean targetSpeed(double value, boolean operating) {
        double wanted = settings.speedOf(SignalNames.TARGET_SPEED, value);
        if (settings.tooFast(wanted)) {
            return false;
        }
        targetSpeed = wanted;
        if (operating) {
            followTargetSpeed();
        }
        return true;
    }

    /** A new acceleration counts at once in profile velocity, for the next set-point in profile position. */
    boolean settingsChanged(boolean operating) {
        if (operating && !servo.profile().ramped()) {
            followTargetSpeed();
        }
        return true;
    }

    void controlWritten(int word, int risen, boolean operating) {
        if ((word & CONTROL_NEW_SET_POINT) == 0) {
            acknowledged = false;
        }
        if (!operating) {
            return;
        }
        halt((word & CONTROL_HALT) != 0);
        if ((risen & CONTROL_NEW_SET_POINT) != 0 && mode == MODE_PROFILE_POSITION && !buffered) {
            takeSetPoint((word & CONTROL_RELATIVE) != 0, (word & CONTROL_CHANGE_IMMEDIATELY) != 0);
        }
    }

    private void takeSetPoint(boolean relative, boolean immediately) {
        acknowledged = true;
        double target = relative
                ? lastTarget + Math.rint(targetPosition)
                : firmware.position.targetFrom(servo.profile().position(), targetPosition);
        if (immediately || !servo.profile().running()) {
            start(target);
        } else {
            buffered = true;
            bufferedTarget = target;
        }
    }

    private void start(double target) {
        lastTarget = target;
        moveSpeed = settings.speed();
        moveAcceleration = settings.acceleration();
        moveDeceleration = settings.deceleration();
        unfinished = true;
        firmware.countMotion();
        if (!halted) {
            servo.move(target, moveSpeed, moveAcceleration, moveDeceleration);
        }
    }

    private void halt(boolean ordered) {
        if (ordered == halted) {
            return;
        }
        halted = ordered;
        if (halted) {
            followedSpeed = 0;
            servo.stop(settings.deceleration());
        } else if (mode == MODE_PROFILE_VELOCITY) {
            followTargetSpeed();
        } else if (unfinished) {
            servo.move(lastTarget, moveSpeed, moveAcceleration, moveDeceleration);
        }
    }

    private void followTargetSpeed() {
        if (mode != MODE_PROFILE_VELOCITY || halted) {
            return;
        }
        stepsAtSpeed = 0;
        if (targetSpeed != 0 && targetSpeed != followedSpeed) {
            firmware.countMotion();
        }
        followedSpeed = targetSpeed;
        servo.keepSpeed(targetSpeed, settings.acceleration(), settings.deceleration());
    }

    /** Disable operation: ramp down; the state machine takes the torque at rest. */
    void rampDownToDisable() {
        if (!disabling) {
            disabling = true;
            servo.stop(settings.deceleration());
            holdHere();
        }
    }

    /** Enable operation came again before the ramp was over. */
    void keepEnabled() {
        if (disabling) {
            disabling = false;
            followTargetSpeed();
        }
    }

    boolean disabling() {
        return disabling;
    }

    void tick() {
        if (mode != orderedMode) {
            mode = orderedMode;
            servo.stop(settings.deceleration());
            holdHere();
            followTargetSpeed();
        }
        if (!halted && unfinished && !servo.profile().running()) {
            unfinished = false;
            if (buffered) {
                buffered = false;
                start(bufferedTarget);
            }
        }
        if (mode == MODE_PROFILE_VELOCITY) {
            double error = targetSpeed - servo.speed() / servo.radiansPerCount();
            if (Math.abs(error) > SPEED_WINDOW * settings.mostSpeed()) {
                stepsAtSpeed = 0;
            } else if (stepsAtSpeed < speedWindowSteps) {
                stepsAtSpeed++;
            }
        }
    }

    /** Whether a step could change something even though the servo rests. */
    boolean waiting() {
        return mode != orderedMode
                || disabling
                || (!halted && unfinished)
                || (mode == MODE_PROFILE_VELOCITY && stepsAtSpeed < speedWindowSteps);
    }

    int modeDisplay() {
        return mode;
    }

    /** The mode specific bits and target reached. */
    int statusBits(boolean enabled) {
        int bits = 0;
        boolean reached;
        if (mode == MODE_PROFILE_VELOCITY) {
            reached = stepsAtSpeed >= speedWindowSteps;
            bits |= servo.atStandstill() ? BIT_ACKNOWLEDGE_OR_SPEED_ZERO : 0;
        } else {
            reached = servo.inPosition() && !buffered;
            bits |= acknowledged || buffered ? BIT_ACKNOWLEDGE_OR_SPEED_ZERO : 0;
            bits |= servo.leftBehind() ? BIT_FOLLOWING_ERROR : 0;
        }
        if (halted) {
            reached = servo.atStandstill() && !servo.profile().running();
        }
        return bits | (enabled && reached ? BIT_TARGET_REACHED : 0);
    }
}
