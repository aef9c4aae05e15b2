package org.axtrial.sim;

import java.time.Duration;
import org.axtrial.registers.FaultCodes;

/** What a drive does with the values that are written to it, in one of the command styles. */
abstract sealed class Firmware permits Cia402Firmware, DirectFirmware {

    static final Duration POWER_UP = Duration.ofMillis(10);
    static final Duration ENABLE_DELAY = Duration.ofMillis(5);
    /** A fault reaction that does not bring the shaft to rest in its ramp and this time ends without it. */
    static final Duration REACTION_RESERVE = Duration.ofMillis(200);

    final DriveParts parts;
    final Servo servo;
    final MoveSettings settings;
    final PositionRegister position;
    final TravelLimits limits;
    private int faultCode;
    private long motions;

    Firmware(DriveParts parts) {
        this.parts = parts;
        this.servo = parts.servo();
        this.settings = parts.settings();
        this.position = parts.position();
        this.limits = parts.limits();
    }

    /**
     * Acts on a written signal.
     *
     * @param value scaled, in the unit of the description
     * @return false if the drive refuses to act, which it tells by exception 04
     */
    final boolean written(String signal, double value) {
        for (Settings group : parts.groups()) {
            if (group.has(signal)) {
                boolean taken = group.accept(signal, value);
                if (taken) {
                    settingsChanged();
                }
                return taken;
            }
        }
        return ordered(signal, value);
    }

    /** Whether a name is that of a setting. */
    final boolean isSetting(String name) {
        for (Settings group : parts.groups()) {
            if (group.has(name)) {
                return true;
            }
        }
        return false;
    }

    /** Acts on a written signal that is no setting; false if the drive refuses to act. */
    abstract boolean ordered(String signal, double value);

    /** A setting has changed. */
    void settingsChanged() {}

    /** Sees the switches and looks after the state machine, once for each step of the servo. */
    final void step() {
        parts.inputs().see(servo.angle());
        tick();
    }

    /** Looks after the state machine. */
    abstract void tick();

    /** What the drive does when it has been supervising its link and hears nothing. */
    void connectionLost() {
        trip(FaultCodes.COMMUNICATION);
    }

    /** Whether a step could change something even though the servo rests. */
    abstract boolean waiting();

    abstract int statusWord();

    /** What the state machine does when a fault arises. */
    abstract void reactToFault();

    /** Modes of operation display; 0 for a style without modes. */
    int modeDisplay() {
        return 0;
    }

    /** Supported drive modes; 0 for a style without modes. */
    int supportedModes() {
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
            trip(FaultCodes.FOLLOWING_ERROR);
        }
        if (servo.plant().windingTripped() && faultCode == 0) {
            trip(FaultCodes.LOAD_LEVEL);
        }
    }

    /** Stops a demand that runs towards a limit at which no more motion is allowed; true if it had to. */
    final boolean stopAtLimit() {
        Profile profile = servo.profile();
        double direction = Math.signum(profile.speed());
        if (direction == 0 || !profile.running() || profile.braking() || !limits.block(direction)) {
            return false;
        }
        servo.stopAtOnce(settings.quickStopDeceleration());
        return true;
    }

    /** Keeps a signed speed in counts/s; where the software limits end the travel it comes to rest by the usual ramp. */
    final void keepSpeed(double speed) {
        double end = limits.end(Math.signum(speed));
        if (speed == 0 || Double.isInfinite(end)) {
            servo.keepSpeed(speed, settings.acceleration(), settings.deceleration());
        } else {
            servo.move(Math.rint(end), Math.abs(speed), settings.acceleration(), settings.deceleration());
        }
    }

    /** Steps that a reaction by a ramp of that rate may take. */
    final int reactionSteps(double deceleration) {
        double ramp = Math.abs(servo.speed()) / servo.radiansPerCount() / deceleration;
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
