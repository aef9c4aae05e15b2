package org.axtrial.sim;

/** Whether a switch works, or what is wrong with it. */
public enum SwitchCondition {
    /** It is active where its cam is. */
    WORKS,
    /** It is never active, as with a cut wire to a closing contact. */
    STUCK_INACTIVE,
    /** It is always active, as with a contact that has welded. */
    STUCK_ACTIVE
}
