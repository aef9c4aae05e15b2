package org.axtrial.link;

/** A write may have reached the drive, and nobody knows whether it acted. The write is not repeated. */
public final class OutcomeUnknownException extends LinkException {

    private static final long serialVersionUID = 1L;

    public OutcomeUnknownException(String message, Throwable cause) {
        super(message, cause);
    }
}
