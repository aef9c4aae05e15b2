package org.axtrial.drive;

/**
 * How far a homing has come, by bits 13 (homing error), 12 (homing attained) and 10 (target reached) of the statusword in
 * homing mode. Source: IEC 61800-7-201, homing mode, from memory.
 */
public enum Homing {
    /** 000. */
    IN_PROGRESS,
    /** 001. */
    NOT_STARTED_OR_INTERRUPTED,
    /** 010: the home position is known and the axis still moves to its target. */
    ATTAINED,
    /** 011. */
    COMPLETED,
    /** 100 and 101: the drive gave up, for example because it met both limit switches and no home switch. */
    ERROR;

    private static final int BIT_TARGET_REACHED = 1 << 10;
    private static final int BIT_ATTAINED = 1 << 12;
    private static final int BIT_ERROR = 1 << 13;

    static Homing of(int statusWord) {
        if ((statusWord & BIT_ERROR) != 0) {
            return ERROR;
        }
        boolean reached = (statusWord & BIT_TARGET_REACHED) != 0;
        if ((statusWord & BIT_ATTAINED) != 0) {
            return reached ? COMPLETED : ATTAINED;
        }
        return reached ? NOT_STARTED_OR_INTERRUPTED : IN_PROGRESS;
    }
}
