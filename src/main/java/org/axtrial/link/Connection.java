package org.axtrial.link;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.StandardSocketOptions;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.Arrays;
import org.axtrial.time.Deadline;

/**
 * One TCP connection and its transaction ids. It moves frames and knows nothing of their meaning beyond the length.
 *
 * <p>The transport class of the protocol library is not used: its time-out counts anew for each read, so a peer that
 * trickles bytes holds it for as long as it likes, it trusts the length field of the reply, and it drops causes. Frames
 * are therefore sent and received here, and only their contents go through the library.
 *
 * <p>Plain sockets on purpose: an interrupt does not break their reads, so an exchange that has begun always ends with
 * a reply or an error, within its deadline, and the interrupt stays pending for the caller.
 */
final class Connection {

    private final Socket socket = new Socket();
    private int lastTransaction;

    /**
     * Connects.
     *
     * @throws IOException if it does not succeed in time
     */
    void connect(String host, int port, Duration within) throws IOException {
        InetSocketAddress address = new InetSocketAddress(host, port);
        if (address.isUnresolved()) {
            throw new UnknownHostException("no address is known for " + host);
        }
        // Small frames must not wait for an earlier acknowledgement; keep-alive finds a dead peer on an idle line.
        // Source: MODBUS Messaging on TCP/IP V1.0b, 4.3.2.
        socket.setOption(StandardSocketOptions.TCP_NODELAY, true);
        socket.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        socket.connect(address, Math.max(1, Math.toIntExact(within.toMillis())));
    }

    /** A transaction id that no request on this connection has had for 65535 exchanges. */
    int nextTransaction() {
        lastTransaction = (lastTransaction + 1) & 0xFFFF;
        return lastTransaction;
    }

    /**
     * Looks whether the idle connection still stands, before a write leaves.
     *
     * @throws IOException if the peer has closed it, or has sent something that nobody asked for
     */
    void checkIdle() throws IOException {
        socket.setSoTimeout(1);
        int read;
        try {
            read = socket.getInputStream().read();
        } catch (SocketTimeoutException silence) {
            return;
        }
        if (read < 0) {
            throw new EOFException("the peer has closed the connection");
        }
        throw new InvalidReplyException("the peer has sent bytes that nobody asked for");
    }

    /** Hands a frame to the wire in one piece. */
    void send(byte[] frame) throws IOException {
        socket.getOutputStream().write(frame);
    }

    /**
     * Receives one frame.
     *
     * @throws SocketTimeoutException if it is not complete by the deadline, however it trickles
     * @throws InvalidReplyException if its header is not that of a Modbus reply, or bytes follow it
     */
    byte[] receive(Deadline deadline) throws IOException {
        byte[] bytes = new byte[Frame.LARGEST + 1];
        int have = 0;
        int need = Frame.HEADER;
        InputStream in = socket.getInputStream();
        while (have < need) {
            long left = deadline.leftNanos();
            if (left <= 0) {
                throw new SocketTimeoutException("only " + have + " bytes of the reply came in time");
            }
            socket.setSoTimeout((int) Math.min(Integer.MAX_VALUE, 1 + left / 1_000_000));
            int read = in.read(bytes, have, bytes.length - have);
            if (read < 0) {
                throw new EOFException("the peer closed the connection after " + have + " bytes of the reply");
            }
            have += read;
            if (have >= Frame.HEADER) {
                need = Frame.length(bytes);
            }
        }
        if (have > need) {
            throw new InvalidReplyException(
                    "the reply is " + need + " bytes long by its header, but " + have + " came");
        }
        return Arrays.copyOf(bytes, need);
    }

    /** Ends the connection in good order. */
    void close() {
        try {
            socket.close();
        } catch (IOException e) {
            // Nothing to save: the socket is given up either way.
        }
    }

    /**
     * Ends the connection at once and throws away what has not left yet. Without that, a request that is stuck behind a
     * pulled cable would still be delivered by the operating system when the cable comes back, long after the caller
     * was told that nobody knows.
     */
    void abort() {
        try {
            socket.setSoLinger(true, 0);
        } catch (IOException e) {
            // The socket is closed already, or about to be.
        }
        close();
    }
}
