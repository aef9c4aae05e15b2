package org.axtrial.axis;

/** The reply to a motion command was lost: the axis was looked at and stopped, and nothing is proven. */
public final class OutcomeUnprovenException extends AxisException {

    private static final long serialVersionUID = 1L;

    public OutcomeUnprovenException(String message) {
        super(message);
    }

    public OutcomeUnprovenException(String message, Throwable cause) {
        super(message, cause);
    }
}
