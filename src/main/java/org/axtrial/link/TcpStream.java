package org.axtrial.link;

import java.io.EOFException;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.StandardSocketOptions;
import java.net.UnknownHostException;
import java.time.Duration;

/**
 * Bytes over one TCP connection.
 *
 * <p>Plain sockets on purpose: an interrupt does not break their reads, so an exchange that has begun always ends with
 * a reply or an error, within its deadline, and the interrupt stays pending for the caller.
 */
final class TcpStream implements ByteStream {

    private final String host;
    private final int port;
    private final Socket socket = new Socket();

    TcpStream(String host, int port) {
        this.host = host;
        this.port = port;
    }

    @Override
    public void open(Duration within) throws IOException {
        InetSocketAddress address = new InetSocketAddress(host, port);
        if (address.isUnresolved()) {
            throw new UnknownHostException("no address is known for " + host);
        }
        // Small frames must not wait for an earlier acknowledgement; keep-alive finds a dead peer on an idle line.
        // Source: MODBUS Messaging on TCP/IP V1.0b, 4.3.2.
        socket.setOption(StandardSocketOptions.TCP_NODELAY, true);
        socket.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        socket.connect(address, milliseconds(within));
    }

    @Override
    public int read(byte[] into, int at, int most, Duration within) throws IOException {
        socket.setSoTimeout(milliseconds(within));
        try {
            int read = socket.getInputStream().read(into, at, most);
            if (read < 0) {
                throw new EOFException("the peer has closed the connection");
            }
            return read;
        } catch (SocketTimeoutException silence) {
            return 0;
        }
    }

    @Override
    public void write(byte[] bytes) throws IOException {
        socket.getOutputStream().write(bytes);
    }

    @Override
    public void close() {
        try {
            socket.close();
        } catch (IOException e) {
            // Nothing to save: the socket is given up either way.
        }
    }

    /**
     * Without this, a request that is stuck behind a pulled cable would still be delivered by the operating system when
     * the cable comes back, long after the caller was told that nobody knows.
     */
    @Override
    public void abort() {
        try {
            socket.setSoLinger(true, 0);
        } catch (IOException e) {
            // The socket is closed already, or about to be.
        }
        close();
    }

    /** Whole milliseconds, rounded up; 0 would mean forever. */
    static int milliseconds(Duration time) {
        return (int) Math.max(1, Math.min(Integer.MAX_VALUE, (time.toNanos() + 999_999) / 1_000_000));
    }
}
