package org.axtrial.sim;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.net.Socket;
import java.net.SocketException;
import java.time.Duration;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection of the simulated server: cuts the byte stream into messages by their MBAP headers and answers them in
 * order, however TCP splits or merges them.
 *
 * <p>A protocol id other than 0 is discarded without reply (MODBUS Messaging on TCP/IP V1.0b, 4.4.2.2). A length that no
 * message can have means that the framing is lost, so the connection is closed.
 */
final class ServerConnection {

    private static final Logger LOG = LoggerFactory.getLogger(ServerConnection.class);
    /** Unit id and at least a function code. */
    private static final int SHORTEST = 2;
    /** Unit id and the longest PDU, 253 bytes (MODBUS Application Protocol V1.1b3, 4.1). */
    private static final int LONGEST = 254;

    private static final int HEADER = 7;

    private final Socket socket;
    private final SimulatedServer server;
    private final TimeSource time = SystemTime.INSTANCE;
    private @Nullable Thread thread;

    ServerConnection(Socket socket, SimulatedServer server) {
        this.socket = socket;
        this.server = server;
    }

    /** Gives the connection its thread, which runs {@link #serve}. */
    void start(Thread own) {
        thread = own;
        own.start();
    }

    void serve() {
        try (socket) {
            socket.setTcpNoDelay(true);
            socket.setKeepAlive(true);
            DataInputStream in = new DataInputStream(new BufferedInputStream(socket.getInputStream()));
            while (message(in)) {
                // The next one.
            }
        } catch (EOFException | SocketException e) {
            LOG.debug(
                    "{}: ended by the other side or by closing",
                    Thread.currentThread().getName(),
                    e);
        } catch (IOException e) {
            LOG.warn("{}: broke", Thread.currentThread().getName(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            server.ended(this);
        }
    }

    /** Serves one message; false if the connection is to be closed. */
    private boolean message(DataInputStream in) throws IOException, InterruptedException {
        int transaction = in.readUnsignedShort();
        int protocol = in.readUnsignedShort();
        int length = in.readUnsignedShort();
        if (length < SHORTEST || length > LONGEST) {
            return false;
        }
        int unit = in.readUnsignedByte();
        byte[] request = new byte[length - 1];
        in.readFully(request);
        if (protocol != 0) {
            return true;
        }
        SimulatedServer.Outcome outcome = server.answer(unit, request);
        if (outcome instanceof SimulatedServer.Outcome.Reset) {
            socket.setSoLinger(true, 0);
            return false;
        }
        if (outcome instanceof SimulatedServer.Outcome.Send send) {
            if (!send.after().isZero()) {
                time.sleepUntil(time.nanos() + send.after().toNanos());
            }
            socket.getOutputStream().write(frame(transaction, unit, send.response()));
        }
        return true;
    }

    private static byte[] frame(int transaction, int unit, byte[] response) {
        byte[] frame = new byte[HEADER + response.length];
        RegisterServer.put(frame, 0, transaction);
        RegisterServer.put(frame, 4, 1 + response.length);
        frame[6] = (byte) unit;
        System.arraycopy(response, 0, frame, HEADER, response.length);
        return frame;
    }

    /** Ends it from outside. */
    void end() {
        try {
            socket.close();
        } catch (IOException e) {
            LOG.debug("closing a connection failed", e);
        }
        Thread own = thread;
        if (own != null) {
            own.interrupt();
        }
    }

    void join(Duration atMost) throws InterruptedException {
        Thread own = thread;
        if (own != null) {
            own.join(atMost.toMillis());
        }
    }
}
