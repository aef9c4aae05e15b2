package org.axtrial.plant;

/** What the holding brake does; on its way it still does what it did before. */
public enum BrakeState {
    /** Closed, holds. */
    ENGAGED,
    /** Told to open, still holds. */
    RELEASING,
    /** Open. */
    RELEASED,
    /** Told to close, still open. */
    ENGAGING
}
