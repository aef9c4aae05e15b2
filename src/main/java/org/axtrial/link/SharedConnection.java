package org.axtrial.link;

import java.io.IOException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.locks.ReentrantLock;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;
import org.jspecify.annotations.Nullable;

/**
 * The one connection to an endpoint, shared by the units behind it. Units take turns, one exchange each, in the order in
 * which the callers came, so that no unit waits for more than one exchange of each other.
 *
 * <p>Any failure of the wire and any reply that is not the one asked for ends the connection, because a reply that comes
 * late would else be taken for the answer to the next request. An exception code is a sound reply and leaves the
 * connection standing. When the connection ends, the link of every unit says so at its next exchange, before anything
 * is sent, and speaks again once its own {@link RegisterLink#reconnect} has been called; the first of them connects.
 *
 * <p>The connection ends with the last link to it, or by {@link #close}, which ends all links.
 */
public final class SharedConnection implements AutoCloseable {

    /** 3.5 characters at 9600 baud; the speed of the line behind a gateway is not known here. */
    private static final Duration GATEWAY_SILENCE = Transport.Serial.silence(9_600);

    /** Makes a connection that has not been tried yet. */
    private interface WireMaker {
        Wire make();
    }

    private final Transport transport;
    private final TimeSource time;
    private final WireMaker maker;
    private final ReentrantLock turn = new ReentrantLock(true);
    private final Set<UnitLink> units = new HashSet<>();
    private volatile @Nullable Wire wire;
    private volatile boolean closed;
    /** Connections made so far; guarded by the turn. */
    private int generation;
    /** What ended the last one; guarded by the turn. */
    private String ended = "never made";

    private SharedConnection(Transport transport, TimeSource time) {
        this.transport = transport;
        this.time = time;
        this.maker = maker(transport, time);
    }

    /**
     * A connection that is made when the first unit asks for it.
     *
     * @param time the clock that deadlines and replies are told on
     */
    public static SharedConnection to(Transport transport, TimeSource time) {
        return new SharedConnection(transport, time);
    }

    private static WireMaker maker(Transport transport, TimeSource time) {
        if (transport instanceof Transport.Tcp tcp) {
            return () -> new MbapWire(new TcpStream(tcp.host(), tcp.port()));
        }
        LateReplies late = new LateReplies(time);
        if (transport instanceof Transport.Serial serial) {
            Duration silence = Transport.Serial.silence(serial.baudRate());
            return () -> new RtuWire(new SerialStream(serial), silence, silence, late, time);
        }
        Transport.RtuOverTcp gateway = (Transport.RtuOverTcp) transport;
        return () -> new RtuWire(
                new TcpStream(gateway.host(), gateway.port()), Duration.ofMillis(1), GATEWAY_SILENCE, late, time);
    }

    /**
     * The link to one unit, connected.
     *
     * @param unit unit id, in the range of the transport; on TCP 255 for a drive with its own network port (MODBUS
     *     Messaging on TCP/IP V1.0b, 4.4.1.2)
     * @param deadline for connecting, and for each whole exchange from sending to the last byte of the reply, 1 ms … 1 h;
     *     waiting for one's turn comes before it
     * @throws LinkLostException if the connection cannot be made within the deadline
     */
    public RegisterLink open(int unit, Duration deadline) throws LinkLostException {
        return openUnit(unit, deadline);
    }

    UnitLink openUnit(int unit, Duration deadline) throws LinkLostException {
        if (unit < transport.lowestUnit() || unit > transport.highestUnit()) {
            throw new IllegalArgumentException("a unit id on " + transport.place() + " is " + transport.lowestUnit()
                    + " … " + transport.highestUnit() + ", got " + unit);
        }
        if (deadline.compareTo(Duration.ofMillis(1)) < 0 || deadline.compareTo(Duration.ofHours(1)) > 0) {
            throw new IllegalArgumentException("the deadline of an exchange is 1 ms … 1 h, got " + deadline);
        }
        UnitLink link = new UnitLink(this, unit, deadline);
        synchronized (units) {
            units.add(link);
        }
        try {
            link.reconnect();
            return link;
        } catch (LinkLostException e) {
            link.close();
            throw e;
        }
    }

    /** Where it goes, for messages. */
    public String place() {
        return transport.place();
    }

    /** How many connections have been made so far. */
    int connections() {
        turn.lock();
        try {
            return generation;
        } finally {
            turn.unlock();
        }
    }

    /** How many callers wait for their turn. */
    int waiting() {
        return turn.getQueueLength();
    }

    /** What becomes of a checked reply. */
    interface Reading<T> {
        T of(Pdu.Answer answer, long sentNanos, long repliedNanos) throws InvalidReplyException;
    }

    /** Connects unless the connection stands, and lets the link speak on it. */
    void reconnect(UnitLink link) throws LinkLostException {
        turn.lock();
        try {
            Wire before = wire;
            if (before == null || closed || link.isClosed() || !stands(before)) {
                connect(link);
            }
            link.speakOn(generation);
        } finally {
            turn.unlock();
        }
    }

    private void connect(UnitLink link) throws LinkLostException {
        Wire fresh = maker.make();
        // Known before it connects, so that close() from another thread ends the waiting.
        wire = fresh;
        try {
            refuseIfClosed(link);
            fresh.connect(link.deadline());
            refuseIfClosed(link);
            generation++;
        } catch (IOException e) {
            drop(fresh, "it could not be made anew");
            throw new LinkLostException(
                    link.peer() + ": no connection within " + link.deadline().toMillis() + " ms (" + e.getMessage()
                            + "); check cable, address, port, and whether another master holds the drive",
                    e);
        }
    }

    private void refuseIfClosed(UnitLink link) throws IOException {
        if (closed || link.isClosed()) {
            throw new IOException("the link was closed");
        }
    }

    private boolean stands(Wire open) {
        try {
            open.checkIdle();
            return true;
        } catch (IOException e) {
            drop(open, "the connection no longer stood: " + e.getMessage());
            return false;
        }
    }

    /** One exchange, in its turn. */
    <T> T exchange(UnitLink link, Request request, Reading<T> reading) throws LinkException {
        turn.lock();
        try {
            Wire open = wire;
            if (open == null || closed || link.isClosed() || !link.speaksOn(generation)) {
                throw new LinkLostException(
                        link.peer() + ": not connected (" + (closed || link.isClosed() ? "closed" : ended)
                                + "); nothing was sent for " + request.registers());
            }
            makeReady(open, link, request);
            return exchange(open, link, request, reading);
        } finally {
            turn.unlock();
        }
    }

    private void makeReady(Wire open, UnitLink link, Request request) throws LinkLostException {
        try {
            open.ready(request, link.unit(), link.deadline());
        } catch (IOException e) {
            drop(open, "the connection no longer stood: " + e.getMessage());
            throw new LinkLostException(
                    link.peer() + ": the connection no longer stood (" + e.getMessage() + "); nothing was sent for "
                            + request.registers(),
                    e);
        }
    }

    private <T> T exchange(Wire open, UnitLink link, Request request, Reading<T> reading) throws LinkException {
        Deadline until = Deadline.in(time, link.deadline());
        long sent = time.nanos();
        try {
            Pdu.Answer answer = open.exchange(request, link.unit(), until);
            long replied = time.nanos();
            if (answer.exception() != 0) {
                throw refused(link, request, answer.exception());
            }
            return reading.of(answer, sent, replied);
        } catch (IOException e) {
            drop(open, "an exchange with unit " + link.unit() + " failed");
            throw lost(link, request, e);
        }
    }

    private static LinkException refused(UnitLink link, Request request, int code) {
        DriveRefusedException refused =
                new DriveRefusedException(link.peer() + ": " + ExceptionCode.text(code, request), code);
        return request.writes() && ExceptionCode.leavesOutcomeOpen(code)
                ? new OutcomeUnknownException(refused.getMessage() + "; the write is not repeated", refused)
                : refused;
    }

    private LinkException lost(UnitLink link, Request request, IOException cause) {
        String what = cause instanceof SocketTimeoutException
                ? "no complete reply within " + link.deadline().toMillis() + " ms"
                : closed || link.isClosed() ? "the link was closed while waiting for the reply" : "no valid reply";
        String message = link.peer() + ": " + what + " to function " + request.function() + " for "
                + request.registers() + " (" + cause.getMessage() + "); the connection is closed";
        // A failed send counts as sent: part of the frame, or all of it, may have left before the failure showed.
        return request.writes()
                ? new OutcomeUnknownException(
                        message + ". The drive may have acted on the write; it is not repeated", cause)
                : new LinkLostException(message, cause);
    }

    /** Ends the connection on purpose, once whoever speaks has been answered. */
    void drop() {
        turn.lock();
        try {
            Wire open = wire;
            if (open != null) {
                open.close();
                wire = null;
                ended = "ended on purpose";
            }
        } finally {
            turn.unlock();
        }
    }

    private void drop(Wire broken, String why) {
        broken.abort();
        wire = null;
        ended = why;
    }

    /** A link is no longer needed; the last one takes the connection with it. */
    void release(UnitLink link) {
        boolean last;
        synchronized (units) {
            last = units.remove(link) && units.isEmpty();
        }
        if (last) {
            end();
        }
    }

    /** Ends the connection and all links to it; never throws, and once is enough. */
    @Override
    public void close() {
        closed = true;
        Set<UnitLink> all;
        synchronized (units) {
            all = Set.copyOf(units);
        }
        all.forEach(UnitLink::close);
        end();
    }

    private void end() {
        Wire open = wire;
        if (open == null) {
            return;
        }
        if (turn.tryLock()) {
            try {
                open.close();
                wire = null;
                ended = "closed";
            } finally {
                turn.unlock();
            }
        } else {
            open.abort();
        }
    }
}
