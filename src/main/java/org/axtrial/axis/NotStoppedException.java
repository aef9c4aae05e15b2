package org.axtrial.axis;

/** A motion reached its target that something was to end before; the axis has been stopped. */
public final class NotStoppedException extends AxisException {

    private static final long serialVersionUID = 1L;

    NotStoppedException(String message) {
        super(message);
    }
}
