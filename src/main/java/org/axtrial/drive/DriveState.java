package org.axtrial.drive;

/**
 * What a drive says of itself, decoded from its status word.
 *
 * @param phase where its state machine stands
 * @param targetReached it says that the ordered target is reached
 * @param statusWord the word as read, for the evidence
 * @param faultCode 0 when there is none
 * @param limited it says that an internal limit holds the axis: a limit switch, a software limit, the torque limit
 */
public record DriveState(Phase phase, boolean targetReached, int statusWord, int faultCode, boolean limited) {

    /** A drive that no limit holds, or that does not tell. */
    public DriveState(Phase phase, boolean targetReached, int statusWord, int faultCode) {
        this(phase, targetReached, statusWord, faultCode, false);
    }

    /** Phases that both command styles can tell apart. */
    public enum Phase {
        /** No torque: switched off, or not ready to switch on. */
        DISABLED,
        /** Torque on, commands are followed. */
        ENABLED,
        /** Stopping by its own ramp; torque still on. */
        STOPPING,
        /** Tripped; a fault code tells why. */
        FAULT,
        /** A status word that the standard or the description does not define. */
        UNKNOWN
    }

    public boolean isEnabled() {
        return phase == Phase.ENABLED;
    }
}
