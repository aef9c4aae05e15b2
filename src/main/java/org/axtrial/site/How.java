package org.axtrial.site;

/** How the axes of a site are worked. */
public enum How {
    /** The drives at their endpoints. */
    REAL,
    /** Simulated drives behind real Modbus TCP on loopback, in real time. */
    SIMULATED,
    /** Simulated drives in process, in virtual time. */
    REHEARSAL
}
