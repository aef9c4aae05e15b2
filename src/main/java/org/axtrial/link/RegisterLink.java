package org.axtrial.link;

/**
 * Access to the registers of one unit. One exchange at a time; a second caller waits. Several units may share one
 * connection: then a failure with one of them ends the connection for all, and each link says so at its next exchange,
 * with {@link LinkLostException} and nothing sent, until it has been told to {@link #reconnect}.
 *
 * <p>A read may be repeated by the caller. A write is sent at most once: when its reply does not come, the caller gets
 * {@link OutcomeUnknownException} and must look at the drive before it decides anything.
 *
 * <p>Register words are {@code int} values 0 … 65535; anything else is refused before the wire.
 */
public interface RegisterLink extends AutoCloseable {

    /**
     * Reads a block by function code 03 or 04.
     *
     * @param readFunction 3 for holding registers, 4 for input registers
     * @param address zero-based address of the first register, 0 … 65535
     * @param count 1 … 125
     * @throws LinkLostException if no valid reply came within the deadline; the connection is closed
     * @throws DriveRefusedException if the drive answered with an exception code; the connection stays
     */
    Reply read(int readFunction, int address, int count) throws LinkException;

    /**
     * Writes one register by function code 06.
     *
     * @throws OutcomeUnknownException if the request may have left and no valid reply came; the connection is closed
     * @throws LinkLostException if the request certainly did not leave
     * @throws DriveRefusedException if the drive answered with an exception code
     */
    Reply writeSingle(int address, int word) throws LinkException;

    /** Writes 1 … 123 registers by function code 16; errors as in {@link #writeSingle}. */
    Reply writeBlock(int address, int[] words) throws LinkException;

    /**
     * Asks for the device identification, function 43 with MEI type 14; changes nothing in the drive.
     *
     * @return what the drive tells, or why it does not: exceptions 01, 02 and 03 mean that it cannot
     * @throws LinkLostException if no valid reply came within the deadline; the connection is closed. Some drives are
     *     silent when they do not know a function
     * @throws DriveRefusedException if the drive answered with another exception code
     */
    default DeviceIdentification identify() throws LinkException {
        return new DeviceIdentification.NotTold(peer() + ": this link does not ask for device identification");
    }

    /**
     * Drops a connection that has failed and connects anew; does nothing while the connection is sound. Sends no
     * request.
     *
     * @throws LinkLostException if the connection cannot be made within the deadline
     */
    void reconnect() throws LinkException;

    /**
     * Ends the connection without a word, as a program does that ends; nothing is sent any more until {@link #reconnect}.
     * Units that share the connection lose it as well.
     */
    void drop();

    /**
     * The number of the present connection: it changes whenever a new one takes the place of an old one, after which
     * another device may be at the far end. A link that has only ever had one stays at its number.
     */
    default long connectionNumber() {
        return 0;
    }

    /** Whom this link speaks to, for messages: host, port and unit. */
    String peer();

    /** Closes the link, and the connection unless others use it; never throws. */
    @Override
    void close();
}
