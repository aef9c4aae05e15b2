package org.axtrial.evidence;

import org.jspecify.annotations.Nullable;

/** Evidence could not be written or read back; the message names the file. */
public final class EvidenceLostException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public EvidenceLostException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
