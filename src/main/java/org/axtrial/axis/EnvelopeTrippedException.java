package org.axtrial.axis;

/** A moving axis left its envelope or took too long and was stopped. */
public final class EnvelopeTrippedException extends AxisException {

    private static final long serialVersionUID = 1L;

    public EnvelopeTrippedException(String message) {
        super(message);
    }

    public EnvelopeTrippedException(String message, Throwable cause) {
        super(message, cause);
    }
}
