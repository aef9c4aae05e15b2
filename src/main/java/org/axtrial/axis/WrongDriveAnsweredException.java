package org.axtrial.axis;

/**
 * Another drive answered than the one of the axis. Nothing was written to it, not even a stop, so that what the right
 * drive does is unknown: the emergency stop is the only stop left.
 */
public final class WrongDriveAnsweredException extends AxisException {

    private static final long serialVersionUID = 1L;

    public WrongDriveAnsweredException(String message, Throwable cause) {
        super(message, cause);
    }
}
