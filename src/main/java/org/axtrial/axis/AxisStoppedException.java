package org.axtrial.axis;

/** The axis was stopped from outside the script: by the operator, a time limit or the end of the program. */
public final class AxisStoppedException extends AxisException {

    private static final long serialVersionUID = 1L;

    public AxisStoppedException(String message) {
        super(message);
    }

    public AxisStoppedException(String message, Throwable cause) {
        super(message, cause);
    }
}
