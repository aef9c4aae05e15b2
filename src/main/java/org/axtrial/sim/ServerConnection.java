package org.axtrial.sim;

import java.io.IOException;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.SocketChannel;
import java.time.Duration;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection of the simulated server: cuts the byte stream into messages by their MBAP headers and answers them in
 * order, however TCP splits or merges them. Lives on the thread of its loop and never waits there: while a reply is due
 * later, or does not go out because the other side does not read, the next messages stay where they are.
 *
 * <p>A protocol id other than 0 is discarded without reply (MODBUS Messaging on TCP/IP V1.0b, 4.4.2.2). A length that no
 * message can have means that the framing is lost, so the connection is closed.
 */
final class ServerConnection implements ServerLoop.Handler {

    private static final Logger LOG = LoggerFactory.getLogger(ServerConnection.class);
    /** Unit id and at least a function code. */
    private static final int SHORTEST = 2;
    /** Unit id and the longest PDU, 253 bytes (MODBUS Application Protocol V1.1b3, 4.1). */
    private static final int LONGEST = 254;

    private static final int HEADER = 7;
    /** Bytes of the header before those that its length counts. */
    private static final int BEFORE_LENGTH = 6;

    private static final int LENGTH_AT = 4;
    private static final int MOST_WAITING = 4096;

    private final SocketChannel channel;
    private final SimulatedServer server;
    private final long born;
    private final ServerLoop loop;
    private final ByteBuffer in = ByteBuffer.allocate(MOST_WAITING).flip();
    private ByteBuffer out = ByteBuffer.allocate(0);
    private @Nullable SelectionKey key;
    private ServerLoop.@Nullable Timer due;
    private boolean hungUp;
    private boolean closed;
    private boolean forgotten;

    ServerConnection(SocketChannel channel, SimulatedServer server, ServerLoop loop) {
        this.channel = channel;
        this.server = server;
        this.born = server.starts();
        this.loop = loop;
    }

    /** Begins to serve. */
    void begin() throws IOException {
        channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
        channel.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        key = loop.watch(channel, SelectionKey.OP_READ, this);
    }

    @Override
    public void ready(SelectionKey ready) throws IOException {
        if (ready.isReadable()) {
            receive();
        }
        if (!closed && ready.isWritable()) {
            channel.write(out);
        }
        proceed();
    }

    @Override
    public void broke(Exception how) {
        if (how instanceof IOException) {
            LOG.debug("{}: ended by the other side", this, how);
        } else {
            LOG.error("{}: closed because a request could not be served", this, how);
        }
        close();
    }

    private void receive() throws IOException {
        in.compact();
        int read = channel.read(in);
        in.flip();
        if (read < 0) {
            hungUp = true;
            if (due != null) {
                // One that has hung up must not hold a slot for a late reply.
                close();
            }
        }
    }

    /** Whether the drive has been switched on anew since, so that it knows nothing of the connection. */
    boolean isStale() {
        return server.starts() != born;
    }

    /** Serves what has come in until something has to be waited for. */
    private void proceed() throws IOException {
        boolean more = true;
        while (more && !isBusy()) {
            more = message();
        }
        if (hungUp && !isBusy()) {
            close();
        }
        SelectionKey own = key;
        if (!closed && own != null) {
            boolean room = !hungUp && in.remaining() < MOST_WAITING;
            own.interestOps((room ? SelectionKey.OP_READ : 0) | (out.hasRemaining() ? SelectionKey.OP_WRITE : 0));
        }
    }

    private boolean isBusy() {
        return closed || due != null || out.hasRemaining();
    }

    /** Serves one message; false if there is no whole one. */
    private boolean message() throws IOException {
        if (in.remaining() < BEFORE_LENGTH) {
            return false;
        }
        int length = in.getShort(in.position() + LENGTH_AT) & 0xFFFF;
        if (length < SHORTEST || length > LONGEST) {
            close();
            return false;
        }
        if (in.remaining() < BEFORE_LENGTH + length) {
            return false;
        }
        int transaction = in.getShort() & 0xFFFF;
        int protocol = in.getShort() & 0xFFFF;
        in.getShort();
        int unit = in.get() & 0xFF;
        byte[] request = new byte[length - 1];
        in.get(request);
        if (isStale()) {
            reset();
            return false;
        }
        if (protocol == 0 && !forgotten) {
            follow(transaction, unit, server.answer(unit, request));
        }
        return true;
    }

    private void follow(int transaction, int unit, WireOutcome outcome) throws IOException {
        if (outcome instanceof WireOutcome.Reply reply) {
            later(reply.after(), () -> send(transaction, unit, reply));
        } else if (outcome instanceof WireOutcome.Trickle trickle) {
            trickle(ByteBuffer.wrap(frame(transaction, unit, trickle.pdu())), trickle.each());
        } else if (outcome instanceof WireOutcome.Reset) {
            reset();
        } else if (outcome instanceof WireOutcome.Taken) {
            close();
        } else if (outcome instanceof WireOutcome.Forgotten) {
            // The slot is free for others, but whoever sits on this connection finds it open and silent.
            forgotten = true;
            server.forgot(this);
        }
    }

    private void reset() throws IOException {
        channel.setOption(StandardSocketOptions.SO_LINGER, 0);
        close();
    }

    /** Something to be sent. */
    private interface Sending {
        void send() throws IOException;
    }

    /** Sends now, or when its time has come. */
    private void later(Duration wait, Sending sending) throws IOException {
        if (wait.isZero()) {
            sending.send();
            return;
        }
        if (hungUp) {
            close();
            return;
        }
        due = loop.after(wait, () -> {
            due = null;
            try {
                sending.send();
                proceed();
            } catch (IOException | RuntimeException e) {
                broke(e);
            }
        });
    }

    private void trickle(ByteBuffer frame, Duration each) throws IOException {
        if (frame.hasRemaining()) {
            later(each, () -> {
                write(new byte[] {frame.get()});
                trickle(frame, each);
            });
        }
    }

    /** Sends a reply, in whatever way it is spoilt. */
    private void send(int transaction, int unit, WireOutcome.Reply reply) throws IOException {
        byte[] frame = frame(transaction, unit, reply.pdu());
        switch (reply.spoil()) {
            case NONE -> write(frame);
            case DOUBLED -> {
                byte[] twice = Arrays.copyOf(frame, 2 * frame.length);
                System.arraycopy(frame, 0, twice, frame.length, frame.length);
                write(twice);
            }
            case OTHER_TRANSACTION -> write(frame((transaction - 1) & 0xFFFF, unit, reply.pdu()));
            case OTHER_UNIT -> write(frame(transaction, unit ^ 1, reply.pdu()));
            case CUT -> {
                write(Arrays.copyOf(frame, frame.length / 2));
                close();
            }
        }
    }

    /** Sends what the other side takes at once; the rest goes when it can. */
    private void write(byte[] bytes) throws IOException {
        ByteBuffer joined = ByteBuffer.allocate(out.remaining() + bytes.length);
        out = joined.put(out).put(bytes).flip();
        channel.write(out);
    }

    private static byte[] frame(int transaction, int unit, byte[] response) {
        byte[] frame = new byte[HEADER + response.length];
        RegisterServer.put(frame, 0, transaction);
        RegisterServer.put(frame, LENGTH_AT, 1 + response.length);
        frame[6] = (byte) unit;
        System.arraycopy(response, 0, frame, HEADER, response.length);
        return frame;
    }

    /** Ends it; on the thread of the loop only. */
    void close() {
        if (closed) {
            return;
        }
        closed = true;
        if (due != null) {
            loop.cancel(due);
            due = null;
        }
        try {
            channel.close();
        } catch (IOException e) {
            LOG.debug("{}: closing failed", this, e);
        }
        server.ended(this);
    }

    @Override
    public String toString() {
        return "connection to port " + server.port();
    }
}
