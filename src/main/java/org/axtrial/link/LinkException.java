package org.axtrial.link;

/** An exchange with a drive did not end as ordered. The message names the peer and says what to look at. */
public abstract sealed class LinkException extends Exception
        permits LinkLostException, DriveRefusedException, OutcomeUnknownException {

    private static final long serialVersionUID = 1L;

    LinkException(String message) {
        super(message);
    }

    LinkException(String message, Throwable cause) {
        super(message, cause);
    }
}
