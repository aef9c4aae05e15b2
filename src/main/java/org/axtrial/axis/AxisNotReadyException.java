package org.axtrial.axis;

/** A motion was ordered on an axis that may not move now: not enabled, not armed, or not known to stand still. */
public final class AxisNotReadyException extends AxisException {

    private static final long serialVersionUID = 1L;

    public AxisNotReadyException(String message) {
        super(message);
    }

    public AxisNotReadyException(String message, Throwable cause) {
        super(message, cause);
    }
}
