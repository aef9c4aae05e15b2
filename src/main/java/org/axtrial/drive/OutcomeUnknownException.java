package org.axtrial.drive;

/** A command may have reached the drive and nobody knows whether it acted. It is not repeated: look, then stop. */
public final class OutcomeUnknownException extends DriveException {

    private static final long serialVersionUID = 1L;

    public OutcomeUnknownException(String message, Throwable cause) {
        super(message, cause);
    }
}
