package org.axtrial.link;

/** The drive answered a request with a Modbus exception code, so it did not act on it. */
public final class DriveRefusedException extends LinkException {

    private static final long serialVersionUID = 1L;

    private final int code;

    /**
     * @param code exception code, 1 … 255 (Modbus Application Protocol V1.1b3, section 7)
     */
    public DriveRefusedException(String message, int code) {
        super(message);
        this.code = code;
    }

    /** The exception code as the drive sent it. */
    public int code() {
        return code;
    }
}
