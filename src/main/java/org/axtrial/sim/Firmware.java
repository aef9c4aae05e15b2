package org.axtrial.sim;

import java.time.Duration;

/** What a drive does with the values that are written to it, in one of the command styles. */
abstract sealed class Firmware permits Cia402Firmware, DirectFirmware {

    /** Communication fault, IEC 61800-7-201 error code 7500h. */
    static final int FAULT_COMMUNICATION = 0x7500;
    /** Following error, IEC 61800-7-201 error code 8611h. */
    static final int FAULT_FOLLOWING_ERROR = 0x8611;

    static final Duration POWER_UP = Duration.ofMillis(10);
    static final Duration ENABLE_DELAY = Duration.ofMillis(5);
    /** A fault reaction that does not bring the shaft to rest in its ramp and this time ends without it. */
    static final Duration REACTION_RESERVE = Duration.ofMillis(200);

    final Servo servo;
    final MoveSettings settings;
    final PositionRegister position;
    private int faultCode;
    private long motions;

    Firmware(Servo servo, MoveSettings settings, PositionRegister position) {
        this.servo = servo;
        this.settings = settings;
        this.position = position;
    }

    /**
     * Acts on a written signal.
     *
     * @param value scaled, in the unit of the description
     * @return false if the drive refuses to act, which it tells by exception 04
     */
    abstract boolean written(String signal, double value);

    /** Looks after the state machine, once for each step of the servo. */
    abstract void tick();

    /** Whether a step could change something even though the servo rests. */
    abstract boolean waiting();

    abstract int statusWord();

    /** What the state machine does when a fault arises. */
    abstract void reactToFault();

    /** Modes of operation display; 0 for a style without modes. */
    int modeDisplay() {
        return 0;
    }

    /** Trips the drive; the first fault stays until it is reset. */
    final void trip(int code) {
        if (faultCode == 0) {
            faultCode = code;
            reactToFault();
        }
    }

    /** Trips on what the servo supervises. */
    final void supervise() {
        if (servo.leftBehind() && faultCode == 0) {
            trip(FAULT_FOLLOWING_ERROR);
        }
    }

    /** Steps that a reaction by ramp may take. */
    final int reactionSteps() {
        double ramp = Math.abs(servo.speed()) / servo.radiansPerCount() / settings.deceleration();
        return servo.steps(REACTION_RESERVE) + (int) Math.min(1e9, ramp / (servo.stepNanos() * 1e-9));
    }

    /** 0 when there is none. */
    final int faultCode() {
        return faultCode;
    }

    final void clearFault() {
        faultCode = 0;
    }

    final void countMotion() {
        motions++;
    }

    /** Motions that were started since the drive was made. */
    final long motions() {
        return motions;
    }

    final boolean moving() {
        return servo.profile().running() || !servo.atStandstill();
    }
}
