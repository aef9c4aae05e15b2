package org.axtrial.link;

import java.io.IOException;
import java.time.Duration;

/** Bytes to and from a peer. */
interface ByteStream {

    /**
     * Opens it.
     *
     * @throws IOException if it does not succeed in time
     */
    void open(Duration within) throws IOException;

    /**
     * Reads what is there, waiting for the first byte.
     *
     * @param most how many bytes at most, at least 1
     * @param within how long to wait; rounded up to whole milliseconds
     * @return how many came, 0 if none did in time
     * @throws java.io.EOFException if the peer has ended it
     */
    int read(byte[] into, int at, int most, Duration within) throws IOException;

    /** Hands bytes on in one piece. */
    void write(byte[] bytes) throws IOException;

    /** Ends it in good order. */
    void close();

    /** Ends it at once and throws away what has not left yet. */
    void abort();
}
