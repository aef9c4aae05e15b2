package org.axtrial.drive;

/**
 * What a drive says of itself, decoded from its status word.
 *
 * @param phase where its state machine stands
 * @param targetReached it says that the ordered target is reached
 * @param statusWord the word as read, for the evidence
 * @param faultCode 0 when there is none
 */
public record DriveState(Phase phase, boolean targetReached, int statusWord, int faultCode) {

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
