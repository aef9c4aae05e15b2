package org.axtrial.axis;

/** The link to the drive was lost. */
public final class AxisUnreachableException extends AxisException {

    private static final long serialVersionUID = 1L;

    public AxisUnreachableException(String message) {
        super(message);
    }

    public AxisUnreachableException(String message, Throwable cause) {
        super(message, cause);
    }
}
