package org.axtrial.axis;

/** A script asked for more than the envelope allows; nothing was sent. */
public final class EnvelopeRefusedException extends AxisException {

    private static final long serialVersionUID = 1L;

    public EnvelopeRefusedException(String message) {
        super(message);
    }

    public EnvelopeRefusedException(String message, Throwable cause) {
        super(message, cause);
    }
}
