package org.axtrial.sim;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PushbackInputStream;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.Arrays;
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
    private final long born;
    private boolean forgotten;

    ServerConnection(Socket socket, SimulatedServer server) {
        this.socket = socket;
        this.server = server;
        this.born = server.starts();
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
            PushbackInputStream pushback = new PushbackInputStream(new BufferedInputStream(socket.getInputStream()), 1);
            DataInputStream in = new DataInputStream(pushback);
            while (message(in, pushback)) {
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

    /** Whether the drive has been switched on anew since, so that it knows nothing of the connection. */
    boolean isStale() {
        return server.starts() != born;
    }

    /** Serves one message; false if the connection is to be closed. */
    private boolean message(DataInputStream data, PushbackInputStream in) throws IOException, InterruptedException {
        int transaction = data.readUnsignedShort();
        int protocol = data.readUnsignedShort();
        int length = data.readUnsignedShort();
        if (length < SHORTEST || length > LONGEST) {
            return false;
        }
        int unit = data.readUnsignedByte();
        byte[] request = new byte[length - 1];
        data.readFully(request);
        if (protocol != 0 || forgotten) {
            return true;
        }
        if (isStale()) {
            socket.setSoLinger(true, 0);
            return false;
        }
        WireOutcome outcome = server.answer(unit, request);
        if (outcome instanceof WireOutcome.Reply reply) {
            return send(in, transaction, unit, reply);
        }
        if (outcome instanceof WireOutcome.Trickle trickle) {
            for (byte one : frame(transaction, unit, trickle.pdu())) {
                pause(in, trickle.each());
                socket.getOutputStream().write(one);
            }
        } else if (outcome instanceof WireOutcome.Reset) {
            socket.setSoLinger(true, 0);
            return false;
        } else if (outcome instanceof WireOutcome.Taken) {
            return false;
        } else if (outcome instanceof WireOutcome.Forgotten) {
            // The slot is free for others, but whoever sits on this connection finds it open and silent.
            server.ended(this);
            forgotten = true;
        }
        return true;
    }

    /** Sends a reply, in whatever way it is spoilt; false if the connection is to be closed. */
    private boolean send(PushbackInputStream in, int transaction, int unit, WireOutcome.Reply reply)
            throws IOException, InterruptedException {
        pause(in, reply.after());
        byte[] frame = frame(transaction, unit, reply.pdu());
        OutputStream out = socket.getOutputStream();
        switch (reply.spoil()) {
            case NONE -> out.write(frame);
            case DOUBLED -> {
                byte[] twice = Arrays.copyOf(frame, 2 * frame.length);
                System.arraycopy(frame, 0, twice, frame.length, frame.length);
                out.write(twice);
            }
            case OTHER_TRANSACTION -> out.write(frame((transaction - 1) & 0xFFFF, unit, reply.pdu()));
            case OTHER_UNIT -> out.write(frame(transaction, unit ^ 1, reply.pdu()));
            case CUT -> {
                out.write(frame, 0, frame.length / 2);
                return false;
            }
        }
        return true;
    }

    /** Waits, but no longer than the other side stays: one that has hung up must not hold a slot for a late reply. */
    private void pause(PushbackInputStream in, Duration wait) throws IOException, InterruptedException {
        long until = time.nanos() + wait.toNanos();
        for (long left = until - time.nanos(); left > 0; left = until - time.nanos()) {
            if (in.available() > 0) {
                time.sleepUntil(until);
                return;
            }
            socket.setSoTimeout((int) Math.min(Integer.MAX_VALUE, 1 + left / 1_000_000));
            try {
                int next = in.read();
                if (next < 0) {
                    throw new EOFException("the other side has hung up");
                }
                in.unread(next);
            } catch (SocketTimeoutException silence) {
                break;
            } finally {
                socket.setSoTimeout(0);
            }
        }
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
