package org.axtrial.drive;

/**
 * Another drive answers than the one that was expected, or was there before. Nothing was written to it, not even a stop:
 * it may belong to another machine. What the right drive does is unknown.
 */
public final class WrongDriveException extends DriveException {

    private static final long serialVersionUID = 1L;

    public WrongDriveException(String message) {
        super(message);
    }
}
