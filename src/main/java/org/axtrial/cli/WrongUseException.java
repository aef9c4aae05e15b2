package org.axtrial.cli;

/** A command was asked for something that it cannot do; the message says what to do instead. */
final class WrongUseException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    WrongUseException(String message) {
        super(message);
    }
}
