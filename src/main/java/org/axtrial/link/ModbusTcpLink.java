package org.axtrial.link;

import java.io.IOException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.ReentrantLock;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;
import org.jspecify.annotations.Nullable;

/**
 * Registers of one unit over Modbus TCP.
 *
 * <p>Thread-safe: one exchange at a time, in the order in which the callers came. Any failure of the wire and any reply
 * that is not the one asked for ends the connection, because a reply that comes late would else be taken for the answer
 * to the next request. An exception code is a sound reply and leaves the connection standing.
 */
public final class ModbusTcpLink implements RegisterLink {

    private final String host;
    private final int port;
    private final int unit;
    private final Duration deadline;
    private final TimeSource time;
    private final ReentrantLock exchange = new ReentrantLock(true);
    private volatile @Nullable Connection connection;
    private volatile boolean closed;
    private final AtomicLong connectionsMade = new AtomicLong();

    private ModbusTcpLink(String host, int port, int unit, Duration deadline, TimeSource time) {
        if (port < 1 || port > 65_535) {
            throw new IllegalArgumentException("a TCP port is 1 … 65535, got " + port);
        }
        if (unit < 0 || unit > 255) {
            throw new IllegalArgumentException("a unit id is 0 … 255, got " + unit);
        }
        if (deadline.compareTo(Duration.ofMillis(1)) < 0 || deadline.compareTo(Duration.ofHours(1)) > 0) {
            throw new IllegalArgumentException("the deadline of an exchange is 1 ms … 1 h, got " + deadline);
        }
        this.host = host;
        this.port = port;
        this.unit = unit;
        this.deadline = deadline;
        this.time = time;
    }

    /**
     * Connects to a drive or to the gateway before it.
     *
     * @param host name or address
     * @param port 1 … 65535, usually 502
     * @param unit 0 … 255; 255 for a drive with its own network port (MODBUS Messaging on TCP/IP V1.0b, 4.4.1.2)
     * @param deadline for connecting, and for each whole exchange from sending to the last byte of the reply, 1 ms … 1 h
     * @param time the clock that the deadline and the replies are told on
     * @throws LinkLostException if the connection cannot be made within the deadline
     */
    public static ModbusTcpLink open(String host, int port, int unit, Duration deadline, TimeSource time)
            throws LinkLostException {
        ModbusTcpLink link = new ModbusTcpLink(host, port, unit, deadline, time);
        link.reconnect();
        return link;
    }

    @Override
    public Reply read(int readFunction, int address, int count) throws LinkException {
        return exchange(new Request.Read(readFunction, address, count));
    }

    @Override
    public Reply writeSingle(int address, int word) throws LinkException {
        return exchange(new Request.WriteSingle(address, word));
    }

    @Override
    public Reply writeBlock(int address, int[] words) throws LinkException {
        return exchange(new Request.WriteBlock(address, words));
    }

    @Override
    public void reconnect() throws LinkLostException {
        exchange.lock();
        try {
            Connection before = connection;
            if (before != null && !closed && stands(before)) {
                return;
            }
            Connection fresh = new Connection();
            // Known before it connects, so that close() from another thread ends the waiting.
            connection = fresh;
            try {
                refuseIfClosed();
                fresh.connect(host, port, deadline);
                refuseIfClosed();
                connectionsMade.incrementAndGet();
            } catch (IOException e) {
                drop(fresh);
                throw new LinkLostException(
                        peer() + ": no connection within " + deadline.toMillis() + " ms (" + e.getMessage()
                                + "); check cable, address, port, and whether another master holds the drive",
                        e);
            }
        } finally {
            exchange.unlock();
        }
    }

    @Override
    public long connectionNumber() {
        return connectionsMade.get();
    }

    @Override
    public String peer() {
        return host + ":" + port + " unit " + unit;
    }

    @Override
    public void close() {
        closed = true;
        Connection open = connection;
        if (open == null) {
            return;
        }
        if (exchange.tryLock()) {
            try {
                open.close();
            } finally {
                exchange.unlock();
            }
        } else {
            open.abort();
        }
    }

    private Reply exchange(Request request) throws LinkException {
        exchange.lock();
        try {
            Connection open = connection;
            if (open == null || closed) {
                throw new LinkLostException(peer() + ": not connected; nothing was sent for " + request.registers());
            }
            if (request.writes()) {
                checkIdle(open, request);
            }
            return exchange(open, request);
        } finally {
            exchange.unlock();
        }
    }

    private boolean stands(Connection open) {
        try {
            open.checkIdle();
            return true;
        } catch (IOException e) {
            drop(open);
            return false;
        }
    }

    private void checkIdle(Connection open, Request request) throws LinkLostException {
        try {
            open.checkIdle();
        } catch (IOException e) {
            drop(open);
            throw new LinkLostException(
                    peer() + ": the connection no longer stood (" + e.getMessage() + "); nothing was sent for "
                            + request.registers(),
                    e);
        }
    }

    private Reply exchange(Connection open, Request request) throws LinkException {
        int transaction = open.nextTransaction();
        byte[] frame = Frame.request(request, transaction, unit);
        Deadline until = Deadline.in(time, deadline);
        long sent = time.nanos();
        try {
            open.send(frame);
            byte[] reply = open.receive(until);
            long replied = time.nanos();
            Frame.Answer answer = Frame.answer(request, transaction, unit, reply);
            if (answer.exception() != 0) {
                throw refused(request, answer.exception());
            }
            return new Reply(answer.words(), sent, replied);
        } catch (IOException e) {
            drop(open);
            throw lost(request, e);
        }
    }

    private LinkException refused(Request request, int code) {
        DriveRefusedException refused =
                new DriveRefusedException(peer() + ": " + ExceptionCode.text(code, request), code);
        return request.writes() && ExceptionCode.leavesOutcomeOpen(code)
                ? new OutcomeUnknownException(refused.getMessage() + "; the write is not repeated", refused)
                : refused;
    }

    private LinkException lost(Request request, IOException cause) {
        String what = cause instanceof SocketTimeoutException
                ? "no complete reply within " + deadline.toMillis() + " ms"
                : closed ? "the link was closed while waiting for the reply" : "no valid reply";
        String message = peer() + ": " + what + " to function " + request.function() + " for " + request.registers()
                + " (" + cause.getMessage() + "); the connection is closed";
        // A failed send counts as sent: part of the frame, or all of it, may have left before the failure showed.
        return request.writes()
                ? new OutcomeUnknownException(
                        message + ". The drive may have acted on the write; it is not repeated", cause)
                : new LinkLostException(message, cause);
    }

    private void refuseIfClosed() throws IOException {
        if (closed) {
            throw new IOException("the link was closed");
        }
    }

    private void drop(Connection broken) {
        broken.abort();
        connection = null;
    }
}
