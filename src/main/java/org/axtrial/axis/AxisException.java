package org.axtrial.axis;

/**
 * A motion did not end as a script ordered it. By the time it is thrown the axis has been looked after: either nothing
 * was sent, or the safe stop has run. The axis stays latched, so that every later call of the same trial throws again.
 */
public abstract sealed class AxisException extends RuntimeException
        permits EnvelopeRefusedException,
                EnvelopeTrippedException,
                OutcomeUnprovenException,
                AxisUnreachableException,
                WrongDriveAnsweredException,
                DriveTrippedException,
                NotStoppedException,
                AxisStoppedException,
                AxisNotReadyException {

    private static final long serialVersionUID = 1L;

    AxisException(String message) {
        super(message);
    }

    AxisException(String message, Throwable cause) {
        super(message, cause);
    }
}
