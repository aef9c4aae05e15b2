package org.axtrial.sim;

/** One mode of operation of CiA 402 while operation is enabled. */
abstract sealed class Cia402Mode
        permits IdleMode, ProfilePositionMode, ProfileVelocityMode, ProfileTorqueMode, HomingMode {

    static final int CONTROL_BIT_4 = 1 << 4;
    static final int CONTROL_BIT_5 = 1 << 5;
    static final int CONTROL_BIT_6 = 1 << 6;
    static final int BIT_TARGET_REACHED = 1 << 10;
    static final int BIT_12 = 1 << 12;
    static final int BIT_13 = 1 << 13;

    final Firmware firmware;
    final Servo servo;
    final MoveSettings settings;
    final TravelLimits limits;

    Cia402Mode(Firmware firmware) {
        this.firmware = firmware;
        this.servo = firmware.servo;
        this.settings = firmware.settings;
        this.limits = firmware.limits;
    }

    /** The mode begins; the demand rests or is on a ramp to rest. */
    void begin(boolean halted) {}

    /** The mode ends, or operation is no longer enabled. */
    void end() {}

    /** Acts on a written controlword while operation is enabled; {@code risen} are the bits that have just been set. */
    void control(int word, int risen) {}

    /** The halt bit was set, and the demand is being ramped down, or it was cleared. */
    void halt(boolean ordered) {}

    /** A setting has changed. */
    void settingsChanged() {}

    /** Whether limits stop the motion of this mode from outside. */
    boolean guarded() {
        return true;
    }

    /** The demand has just been stopped at a limit. */
    void stoppedAtLimit() {}

    /** Lets one step pass. */
    void tick() {}

    /** Whether a step could change something even though the servo rests. */
    boolean waiting() {
        return false;
    }

    /** Whether the target has been reached, as bit 10 tells without halt. */
    abstract boolean reached();

    /** The mode specific bits 12 and 13. */
    int statusBits() {
        return 0;
    }
}
