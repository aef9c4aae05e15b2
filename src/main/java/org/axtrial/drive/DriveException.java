package org.axtrial.drive;

/** A drive could not be read or commanded as ordered. Causes from the link are kept. */
public abstract sealed class DriveException extends Exception
        permits DriveUnreachableException,
                CommandRefusedException,
                OutcomeUnknownException,
                DriveStateException,
                WrongDriveException {

    private static final long serialVersionUID = 1L;

    DriveException(String message) {
        super(message);
    }

    DriveException(String message, Throwable cause) {
        super(message, cause);
    }
}
