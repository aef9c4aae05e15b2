package org.axtrial.script;

/** A person whom a trial needs cannot be asked, or does not answer, so that the trial is BLOCKED; the message names the step. */
public final class MissingAnswerException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public MissingAnswerException(String message) {
        super(message);
    }
}
