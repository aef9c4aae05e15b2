package org.axtrial.link;

/** There is no sound connection, or a read got no valid reply in time. The drive has not been told anything. */
public final class LinkLostException extends LinkException {

    private static final long serialVersionUID = 1L;

    public LinkLostException(String message) {
        super(message);
    }

    public LinkLostException(String message, Throwable cause) {
        super(message, cause);
    }
}
