package org.axtrial.drive;

/** The link to the drive is lost, or a read got no valid answer in time; nothing was commanded. */
public final class DriveUnreachableException extends DriveException {

    private static final long serialVersionUID = 1L;

    public DriveUnreachableException(String message, Throwable cause) {
        super(message, cause);
    }
}
