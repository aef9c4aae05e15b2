package org.axtrial.sim;

import java.io.IOException;
import java.nio.channels.SelectionKey;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The port of a simulated server: accepts connections and gives them the slots that the drives allow. A connection that
 * finds no slot waits for one for a grace, because a client that hangs up and calls again at once may arrive before its
 * old connection has been cleared away; then it is closed. Lives on the thread of its loop.
 */
final class ServerPort implements ServerLoop.Handler {

    private static final Logger LOG = LoggerFactory.getLogger(ServerPort.class);
    private static final Duration GRACE = Duration.ofMillis(250);
    /** Until it tries again when the computer refuses to accept, as it does when it has no more handles. */
    private static final Duration REST = Duration.ofSeconds(1);

    private final ServerSocketChannel listener;
    private final int number;
    private final int most;
    private final ServerLoop loop;
    private final SimulatedServer server;
    /** Those that hold a slot. */
    private final Set<ServerConnection> holding = new HashSet<>();
    /** Those that the drive has forgotten: open, without a slot. */
    private final Set<ServerConnection> forgotten = new HashSet<>();

    private final Deque<Waiting> waiting = new ArrayDeque<>();
    private final AtomicInteger turnedAway = new AtomicInteger();
    private volatile int connections;
    private boolean closed;

    private record Waiting(SocketChannel channel, ServerLoop.Timer patience) {}

    /**
     * A port that does not accept yet.
     *
     * @param listener bound
     * @param most slots, at least 1
     */
    ServerPort(ServerSocketChannel listener, int number, int most, ServerLoop loop, SimulatedServer server) {
        this.listener = listener;
        this.number = number;
        this.most = most;
        this.loop = loop;
        this.server = server;
    }

    int number() {
        return number;
    }

    /** Safe from any thread. */
    int connections() {
        return connections;
    }

    /** So many attempts to connect, and those still to be turned away, are closed at once. Safe from any thread. */
    void turnAway(int attempts) {
        turnedAway.addAndGet(attempts);
    }

    /** Safe from any thread. */
    void turnNobodyAway() {
        turnedAway.set(0);
    }

    /** Begins to accept. */
    void begin() throws IOException {
        loop.watch(listener, SelectionKey.OP_ACCEPT, this);
    }

    @Override
    public void ready(SelectionKey key) {
        try {
            for (SocketChannel next = listener.accept(); next != null; next = listener.accept()) {
                arrived(next);
            }
        } catch (IOException e) {
            LOG.warn("port {}: accepts no connections for {} s", number, REST.toSeconds(), e);
            key.interestOps(0);
            loop.after(REST, () -> {
                if (key.isValid()) {
                    key.interestOps(SelectionKey.OP_ACCEPT);
                }
            });
        }
    }

    @Override
    public void broke(Exception how) {
        LOG.error("port {}: failed", number, how);
    }

    private void arrived(SocketChannel channel) {
        dropStale();
        if (closed || turnedAway.getAndUpdate(left -> Math.max(0, left - 1)) > 0) {
            hangUp(channel);
        } else if (holding.size() < most) {
            admit(channel);
        } else {
            waiting.add(new Waiting(channel, loop.after(GRACE, () -> {
                // All wait equally long, so the one whose patience ends is in front.
                waiting.remove();
                hangUp(channel);
            })));
        }
    }

    /** Connections from before a drive was switched on anew hold no slot. */
    private void dropStale() {
        Set.copyOf(holding).stream().filter(ServerConnection::isStale).forEach(ServerConnection::close);
    }

    private void admit(SocketChannel channel) {
        ServerConnection connection = new ServerConnection(channel, server, loop);
        holding.add(connection);
        connections = holding.size();
        try {
            connection.begin();
        } catch (IOException e) {
            connection.broke(e);
        }
    }

    private static void hangUp(SocketChannel channel) {
        try {
            channel.close();
        } catch (IOException e) {
            LOG.debug("closing a connection failed", e);
        }
    }

    /** A connection has ended; its slot, if it held one, goes to who waits longest. */
    void ended(ServerConnection connection) {
        forgotten.remove(connection);
        free(connection);
    }

    /** A connection stays open without its slot. */
    void forgot(ServerConnection connection) {
        forgotten.add(connection);
        free(connection);
    }

    private void free(ServerConnection connection) {
        holding.remove(connection);
        connections = holding.size();
        Waiting next = closed || holding.size() >= most ? null : waiting.poll();
        if (next != null) {
            loop.cancel(next.patience());
            admit(next.channel());
        }
    }

    /** Closes the port and every connection. */
    void close() {
        closed = true;
        try {
            listener.close();
        } catch (IOException e) {
            LOG.warn("port {}: closing failed", number, e);
        }
        waiting.forEach(one -> {
            loop.cancel(one.patience());
            hangUp(one.channel());
        });
        waiting.clear();
        Set.copyOf(holding).forEach(ServerConnection::close);
        Set.copyOf(forgotten).forEach(ServerConnection::close);
    }
}
