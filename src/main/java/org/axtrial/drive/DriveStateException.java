package org.axtrial.drive;

/** A drive did not reach the state it was asked for, or left it; the message says which and what it shows instead. */
public final class DriveStateException extends DriveException {

    private static final long serialVersionUID = 1L;

    private final transient DriveState state;

    public DriveStateException(String message, DriveState state) {
        super(message);
        this.state = state;
    }

    /** What the drive showed last. */
    public DriveState state() {
        return state;
    }
}
