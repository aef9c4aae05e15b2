package org.axtrial.sim;

import java.util.Locale;
import org.axtrial.registers.CommandStyle;

/** What a drive is doing in words, short enough for a line among others. */
final class DriveWords {

    private static final int LOW_STATES = 0x6F;
    /** Where bit 5, quick stop, says nothing. IEC 61800-7-201, statusword. */
    private static final int HIGH_STATES = 0x4F;

    private DriveWords() {}

    /**
     * The state and whether the shaft turns.
     *
     * @param status statusword of a CiA 402 drive; not looked at for others
     * @param faultCode 0 when there is none
     * @param energised whether the motor gives torque
     */
    static String of(CommandStyle style, int status, int faultCode, boolean energised, boolean moving) {
        if (faultCode != 0) {
            return String.format(Locale.ROOT, energised ? "stopping: 0x%04X" : "fault 0x%04X", faultCode);
        }
        String state = style == CommandStyle.CIA402 ? cia402(status) : energised ? "enabled" : "no torque";
        return moving ? state + ", moving" : energised ? state + ", at rest" : state;
    }

    private static String cia402(int status) {
        for (Cia402State state : Cia402State.values()) {
            boolean low = (state.bits() & LOW_STATES & ~HIGH_STATES) != 0 || state == Cia402State.QUICK_STOP_ACTIVE;
            if ((status & (low ? LOW_STATES : HIGH_STATES)) == state.bits()) {
                return switch (state) {
                    case NOT_READY_TO_SWITCH_ON -> "not ready";
                    case SWITCH_ON_DISABLED -> "switch-on disabled";
                    case READY_TO_SWITCH_ON -> "ready to switch on";
                    case SWITCHED_ON -> "switched on";
                    case OPERATION_ENABLED -> "enabled";
                    case QUICK_STOP_ACTIVE -> "quick stop";
                    case FAULT_REACTION_ACTIVE -> "fault reaction";
                    case FAULT -> "fault";
                };
            }
        }
        return "status 0x" + Integer.toHexString(status);
    }
}
