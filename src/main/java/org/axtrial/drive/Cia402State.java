package org.axtrial.drive;

/**
 * States of the drive state machine of IEC 61800-7-201 (CiA 402), decoded from bits 0, 1, 2, 3, 5 and 6 of the
 * statusword 6041h. Bit 4 (voltage enabled) and the bits from 7 on do not belong to the state.
 */
public enum Cia402State {
    NOT_READY_TO_SWITCH_ON("not ready to switch on", 0x4F, 0x00, DriveState.Phase.DISABLED),
    SWITCH_ON_DISABLED("switch on disabled", 0x4F, 0x40, DriveState.Phase.DISABLED),
    READY_TO_SWITCH_ON("ready to switch on", 0x6F, 0x21, DriveState.Phase.DISABLED),
    SWITCHED_ON("switched on", 0x6F, 0x23, DriveState.Phase.DISABLED),
    OPERATION_ENABLED("operation enabled", 0x6F, 0x27, DriveState.Phase.ENABLED),
    QUICK_STOP_ACTIVE("quick stop active", 0x6F, 0x07, DriveState.Phase.STOPPING),
    FAULT_REACTION_ACTIVE("fault reaction active", 0x4F, 0x0F, DriveState.Phase.FAULT),
    FAULT("fault", 0x4F, 0x08, DriveState.Phase.FAULT),
    /** A pattern that the standard does not define: 104 of the 128 values of bits 0 … 6. */
    UNKNOWN("a state that the standard does not define", 0, 0, DriveState.Phase.UNKNOWN);

    private final String text;
    private final int mask;
    private final int pattern;
    private final DriveState.Phase phase;

    Cia402State(String text, int mask, int pattern, DriveState.Phase phase) {
        this.text = text;
        this.mask = mask;
        this.pattern = pattern;
        this.phase = phase;
    }

    /** The state that a statusword shows; {@link #UNKNOWN} rather than an exception for undefined patterns. */
    public static Cia402State of(int statusWord) {
        for (Cia402State state : values()) {
            // UNKNOWN stands last and its empty mask takes what no state has taken.
            if ((statusWord & state.mask) == state.pattern) {
                return state;
            }
        }
        return UNKNOWN;
    }

    /** The name as the standard writes it. */
    public String text() {
        return text;
    }

    DriveState.Phase phase() {
        return phase;
    }
}
