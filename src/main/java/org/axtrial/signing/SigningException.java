package org.axtrial.signing;

import org.jspecify.annotations.Nullable;

/** A key, a certificate or a pack cannot be used for signing; the message says why and what to do. */
public final class SigningException extends Exception {

    private static final long serialVersionUID = 1L;

    SigningException(String message) {
        super(message);
    }

    SigningException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
