package org.axtrial.axis;

/** The drive reported a fault, refused a command or left the enabled state. */
public final class DriveTrippedException extends AxisException {

    private static final long serialVersionUID = 1L;

    public DriveTrippedException(String message) {
        super(message);
    }

    public DriveTrippedException(String message, Throwable cause) {
        super(message, cause);
    }
}
