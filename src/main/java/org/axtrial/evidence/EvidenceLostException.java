package org.axtrial.evidence;

/** Evidence could not be written or read back; the message names the file. */
public final class EvidenceLostException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public EvidenceLostException(String message, Throwable cause) {
        super(message, cause);
    }
}
