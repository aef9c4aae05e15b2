package org.axtrial.axis;

/** What a script expects to end a motion before its target. */
public enum StopCause {
    /** A limit switch or a software limit: the drive stays enabled and says that an internal limit holds it. */
    LIMIT("a limit"),
    /** The drive: it leaves the enabled state, with a fault or without. */
    TRIP("the drive");

    private final String text;

    StopCause(String text) {
        this.text = text;
    }

    String text() {
        return text;
    }
}
