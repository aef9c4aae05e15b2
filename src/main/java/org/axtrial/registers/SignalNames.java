package org.axtrial.registers;

import java.util.List;
import java.util.Set;

/** The signal names with a meaning to the tool; a description may declare others beside them. */
public final class SignalNames {

    /** Actual position, register counts. */
    public static final String POSITION = "position";
    /** Position demand of the drive's profile generator, register counts. */
    public static final String DEMAND_POSITION = "demandPosition";
    /** Actual speed, any speed unit; angular units mean the motor shaft. */
    public static final String SPEED = "speed";
    /** Actual torque, percent or per mille of rated torque. */
    public static final String TORQUE = "torque";
    /** Demand minus actual position, register counts. */
    public static final String FOLLOWING_ERROR = "followingError";
    /**
     * Largest size of the following error since the latch was cleared, register counts; optional, and only with a way to
     * clear it.
     */
    public static final String PEAK_FOLLOWING_ERROR = "peakFollowingError";
    /** Largest size of the torque since the latch was cleared, percent or per mille of rated torque; optional, as above. */
    public static final String PEAK_TORQUE = "peakTorque";
    /** Status word; bits by the standard (cia402) or by the description (direct). */
    public static final String STATUS = "status";
    /** Fault code, 0 when there is none. */
    public static final String FAULT_CODE = "faultCode";

    /** Speed for the next move, unsigned; angular units mean the motor shaft. */
    public static final String PROFILE_SPEED = "profileSpeed";
    /** Acceleration for the next move. */
    public static final String PROFILE_ACCELERATION = "profileAcceleration";
    /** Deceleration for the next move; optional. */
    public static final String PROFILE_DECELERATION = "profileDeceleration";
    /** Torque limit, percent or per mille of rated torque; optional. */
    public static final String TORQUE_LIMIT = "torqueLimit";

    /**
     * Position actual internal value 6063h, register counts that no homing changes; optional. It shows by how much a homing
     * moved the zero.
     */
    public static final String INTERNAL_POSITION = "internalPosition";

    /** cia402: controlword 6040h. */
    public static final String CONTROL = "control";
    /** cia402: modes of operation 6060h. */
    public static final String MODE = "mode";
    /** cia402: modes of operation display 6061h. */
    public static final String MODE_DISPLAY = "modeDisplay";
    /** cia402: target position 607Ah, register counts. */
    public static final String TARGET_POSITION = "targetPosition";
    /** cia402: target velocity 60FFh. */
    public static final String TARGET_SPEED = "targetSpeed";

    /** cia402: supported drive modes 6502h, bit n − 1 for mode n; optional. */
    public static final String SUPPORTED_MODES = "supportedModes";
    /** cia402: target torque 6071h, percent or per mille of rated torque; optional, needed for profile torque (mode 4). */
    public static final String TARGET_TORQUE = "targetTorque";
    /** Torque slope 6087h, percent or per mille of rated torque in one second; optional. */
    public static final String TORQUE_SLOPE = "torqueSlope";

    /** Motion profile type 6086h: 0 linear ramp, 2 jerk-free ramp, 3 jerk-limited ramp; optional. */
    public static final String PROFILE_TYPE = "profileType";
    /** Profile jerk 60A4h:1; optional. */
    public static final String PROFILE_JERK = "profileJerk";
    /** Quick stop deceleration 6085h; optional. */
    public static final String QUICK_STOP_DECELERATION = "quickStopDeceleration";

    /** Homing method 6098h; optional, needed for homing (mode 6). */
    public static final String HOMING_METHOD = "homingMethod";
    /** Speed during search for switch 6099h:1; optional. */
    public static final String HOMING_SPEED_SWITCH = "homingSpeedSwitch";
    /** Speed during search for zero 6099h:2; optional. */
    public static final String HOMING_SPEED_ZERO = "homingSpeedZero";
    /** Homing acceleration 609Ah; optional. */
    public static final String HOMING_ACCELERATION = "homingAcceleration";
    /**
     * Home offset 607Ch, register counts; optional. The zero of the position register lies so far from the home position,
     * towards growing counts if it is positive: the home position itself then reads minus the offset.
     */
    public static final String HOME_OFFSET = "homeOffset";

    /**
     * Lower software position limit 607Dh:1, register counts from the home position; optional. Both limits 0, or a lower
     * one not below the upper one, are no limits.
     */
    public static final String SOFTWARE_LIMIT_MIN = "softwareLimitMin";
    /** Upper software position limit 607Dh:2, register counts from the home position; optional. */
    public static final String SOFTWARE_LIMIT_MAX = "softwareLimitMax";
    /** Digital inputs 60FDh: bit 0 negative limit switch, bit 1 positive limit switch, bit 2 home switch; optional. */
    public static final String DIGITAL_INPUTS = "digitalInputs";

    /** Following error window 6065h, register counts; the highest 32-bit value ends the supervision; optional. */
    public static final String FOLLOWING_ERROR_WINDOW = "followingErrorWindow";
    /** Following error time-out 6066h, a time; optional. */
    public static final String FOLLOWING_ERROR_TIME = "followingErrorTime";
    /** Position window 6067h, register counts; optional. */
    public static final String POSITION_WINDOW = "positionWindow";
    /** Position window time 6068h, a time; optional. */
    public static final String POSITION_WINDOW_TIME = "positionWindowTime";

    /**
     * Quick stop option code 605Ah: 0 torque off, 1 ramp, 2 quick stop ramp, each then switch on disabled; 5 and 6 as 1
     * and 2, but quick stop active is kept; optional.
     */
    public static final String QUICK_STOP_OPTION = "quickStopOption";
    /** Shutdown option code 605Bh: 0 torque off, 1 ramp first; optional. */
    public static final String SHUTDOWN_OPTION = "shutdownOption";
    /** Disable operation option code 605Ch: 0 torque off, 1 ramp first; optional. */
    public static final String DISABLE_OPTION = "disableOption";
    /** Halt option code 605Dh: 1 ramp, 2 quick stop ramp; optional. */
    public static final String HALT_OPTION = "haltOption";
    /** Fault reaction option code 605Eh: 0 torque off, 1 ramp, 2 quick stop ramp; optional. */
    public static final String FAULT_REACTION_OPTION = "faultReactionOption";
    /** Abort connection option code 6007h: 0 no action, 1 fault, 2 disable voltage, 3 quick stop; optional. */
    public static final String ABORT_CONNECTION_OPTION = "abortConnectionOption";

    /** direct: command register, values by the description. */
    public static final String COMMAND = "command";
    /** direct: a write starts a relative move of so many register counts. */
    public static final String RELATIVE_MOVE = "relativeMove";
    /** direct: a write starts a move to so many register counts. */
    public static final String ABSOLUTE_MOVE = "absoluteMove";
    /** direct: a write starts endless motion at that signed speed; 0 stops. */
    public static final String SPEED_COMMAND = "speedCommand";

    /**
     * Serial number of the drive, integer; optional. It tells a drive from its neighbour of the same type, so it is held
     * to its first reading whenever a connection is made anew.
     */
    public static final String SERIAL_NUMBER = "serialNumber";
    /** A number that the drive itself changes all the time, as a running clock does; optional. It shows frozen replies. */
    public static final String LIFE_COUNTER = "lifeCounter";

    /** Signals that a trace samples when the description declares them, in this order. */
    public static final List<String> SAMPLED =
            List.of(POSITION, DEMAND_POSITION, SPEED, TORQUE, FOLLOWING_ERROR, STATUS, FAULT_CODE, INTERNAL_POSITION);

    /** Peaks that a drive may latch between two looks. */
    public static final List<String> LATCHED = List.of(PEAK_FOLLOWING_ERROR, PEAK_TORQUE);

    /** The drive acts when these are written, or every motion writes them anew: only a motion may write them. */
    public static final Set<String> MOTION_COMMANDS = Set.of(
            PROFILE_SPEED,
            PROFILE_ACCELERATION,
            PROFILE_DECELERATION,
            CONTROL,
            MODE,
            TARGET_POSITION,
            TARGET_SPEED,
            TARGET_TORQUE,
            COMMAND,
            RELATIVE_MOVE,
            ABSOLUTE_MOVE,
            SPEED_COMMAND);

    private SignalNames() {}

    /** Signals that a description of the style must declare. */
    public static List<String> required(CommandStyle style) {
        return switch (style) {
            case CIA402 ->
                List.of(
                        POSITION,
                        SPEED,
                        TORQUE,
                        STATUS,
                        FAULT_CODE,
                        CONTROL,
                        MODE,
                        MODE_DISPLAY,
                        TARGET_POSITION,
                        TARGET_SPEED,
                        PROFILE_SPEED,
                        PROFILE_ACCELERATION);
            case DIRECT ->
                List.of(
                        POSITION,
                        SPEED,
                        TORQUE,
                        STATUS,
                        FAULT_CODE,
                        COMMAND,
                        RELATIVE_MOVE,
                        ABSOLUTE_MOVE,
                        SPEED_COMMAND,
                        PROFILE_SPEED,
                        PROFILE_ACCELERATION);
        };
    }
}
