package org.axtrial.drive;

/** The drive answered a request with a Modbus exception, so it did not act on it; the message says what and why. */
public final class CommandRefusedException extends DriveException {

    private static final long serialVersionUID = 1L;

    public CommandRefusedException(String message, Throwable cause) {
        super(message, cause);
    }
}
