package org.axtrial.link;

import java.io.IOException;

/** What came back is not the reply to what was sent. */
final class InvalidReplyException extends IOException {

    private static final long serialVersionUID = 1L;

    InvalidReplyException(String message) {
        super(message);
    }

    InvalidReplyException(String message, Throwable cause) {
        super(message, cause);
    }
}
