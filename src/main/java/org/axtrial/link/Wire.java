package org.axtrial.link;

import java.io.IOException;
import java.time.Duration;
import org.axtrial.time.Deadline;

/**
 * One connection on one transport: moves a request out and its reply back, and knows how messages are framed there. Not
 * safe for several threads but for {@link #close} and {@link #abort}, which end a waiting exchange.
 */
sealed interface Wire permits MbapWire, RtuWire {

    /**
     * Connects.
     *
     * @throws IOException if it does not succeed in time
     */
    void connect(Duration within) throws IOException;

    /**
     * Looks whether the idle connection still stands.
     *
     * @throws IOException if it does not
     */
    void checkIdle() throws IOException;

    /**
     * Makes the wire fit to carry a request; may take as long as the patience. Nothing has been sent if it fails.
     *
     * @throws IOException if the connection no longer stands or is not to be trusted
     */
    void ready(Request request, int unit, Duration patience) throws IOException;

    /**
     * Sends a request, once, and receives its reply.
     *
     * @throws java.net.SocketTimeoutException if the reply is not complete by the deadline, however it trickles
     * @throws InvalidReplyException if what comes is not the reply
     */
    Pdu.Answer exchange(Request request, int unit, Deadline deadline) throws IOException;

    /** Ends the connection in good order. */
    void close();

    /** Ends the connection at once and throws away what has not left yet. */
    void abort();
}
