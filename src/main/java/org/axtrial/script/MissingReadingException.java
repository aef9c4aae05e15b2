package org.axtrial.script;

/** A reading that a trial needs cannot be had, so that the trial is BLOCKED; the message names it. */
public final class MissingReadingException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public MissingReadingException(String message) {
        super(message);
    }
}
