package org.axtrial.sim;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves simulated drives over Modbus TCP in real time (MODBUS Messaging on TCP/IP V1.0b). Drives run on between
 * requests; each request first brings its drive to the present.
 *
 * <p>A unit id that no drive has gets no answer. A connection above the number that the drives allow, the smallest
 * number counting, is accepted and closed after a grace of 250 ms.
 */
public final class SimulatedServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(SimulatedServer.class);
    private static final Duration STEPPING = Duration.ofMillis(1);
    private static final int GRACE_TRIES = 250;
    private static final Duration JOIN = Duration.ofSeconds(5);

    private final ServerSocket listener;
    private final Map<Integer, SimulatedDrive> byUnit;
    private final Map<Integer, Long> driveZero = new HashMap<>();
    private final TimeSource time = SystemTime.INSTANCE;
    private final WireFaults faults = new WireFaults();
    private final int mostConnections;
    private final Set<ServerConnection> connections = new HashSet<>();
    private final Thread acceptor;
    private final Thread stepper;
    private final AtomicInteger turnedAway = new AtomicInteger();
    private volatile boolean closed;

    private SimulatedServer(ServerSocket listener, Map<Integer, SimulatedDrive> byUnit) {
        this.listener = listener;
        this.byUnit = Map.copyOf(byUnit);
        this.mostConnections = byUnit.values().stream()
                .mapToInt(drive -> drive.description().maxConnections())
                .min()
                .orElse(1);
        this.byUnit.forEach((unit, drive) -> driveZero.put(unit, time.nanos() - drive.nanos()));
        this.acceptor = daemon("accept", this::accept);
        this.stepper = daemon("step", this::step);
    }

    /**
     * Starts serving.
     *
     * @param host address to listen on
     * @param port 1 … 65535, 0 takes a free one
     * @param byUnit drives by unit id, 0 … 255
     * @throws IOException if the port cannot be opened
     */
    public static SimulatedServer start(String host, int port, Map<Integer, SimulatedDrive> byUnit) throws IOException {
        if (byUnit.isEmpty()) {
            throw new IllegalArgumentException("a server needs at least one drive");
        }
        for (int unit : byUnit.keySet()) {
            if (unit < 0 || unit > 255) {
                throw new IllegalArgumentException("a unit id is 0 … 255, got " + unit);
            }
        }
        ServerSocket listener = new ServerSocket();
        try {
            listener.setReuseAddress(true);
            listener.bind(new InetSocketAddress(InetAddress.getByName(host), port));
        } catch (IOException e) {
            listener.close();
            throw new IOException("cannot listen on " + host + " port " + port + ": " + e.getMessage(), e);
        }
        SimulatedServer server = new SimulatedServer(listener, byUnit);
        server.acceptor.start();
        server.stepper.start();
        return server;
    }

    /** The port that it listens on. */
    public int port() {
        return listener.getLocalPort();
    }

    /** Arms a fault for the next requests on any connection. */
    public void fault(WireFault fault) {
        faults.arm(fault);
    }

    /**
     * Arms a fault for the next requests to one drive, on any connection.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public void fault(int unit, WireFault fault) {
        SimulatedDrive drive = byUnit.get(unit);
        if (drive == null) {
            throw new IllegalArgumentException("no drive has the unit id " + unit);
        }
        faults.arm(fault, drive);
    }

    /** Disarms all faults. */
    public void clearFaults() {
        turnedAway.set(0);
        faults.clear();
    }

    private Thread daemon(String duty, Runnable work) {
        Thread thread = new Thread(work, "simulated-drives-" + port() + "-" + duty);
        thread.setDaemon(true);
        return thread;
    }

    private void accept() {
        for (int number = 1; !closed; number++) {
            try {
                Socket socket = listener.accept();
                dropStale();
                awaitSlot();
                admit(socket, number);
            } catch (IOException e) {
                if (!closed) {
                    LOG.warn("port {}: no longer accepts connections", port(), e);
                    return;
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    /** Connections from before a drive was switched on anew hold no slot. */
    private void dropStale() {
        Set<ServerConnection> open;
        synchronized (connections) {
            open = Set.copyOf(connections);
        }
        open.stream().filter(ServerConnection::isStale).forEach(ServerConnection::end);
    }

    /** A client that hangs up and calls again at once may arrive before its old connection has been cleared away. */
    private void awaitSlot() throws InterruptedException {
        for (int tries = 0; tries < GRACE_TRIES && isFull(); tries++) {
            time.sleepUntil(time.nanos() + STEPPING.toNanos());
        }
    }

    private boolean isFull() {
        synchronized (connections) {
            return connections.size() >= mostConnections;
        }
    }

    private void admit(Socket socket, int number) throws IOException {
        synchronized (connections) {
            if (closed
                    || turnedAway.getAndUpdate(left -> Math.max(0, left - 1)) > 0
                    || connections.size() >= mostConnections) {
                socket.close();
                return;
            }
            ServerConnection connection = new ServerConnection(socket, this);
            connections.add(connection);
            connection.start(daemon("connection-" + number, connection::serve));
        }
    }

    void ended(ServerConnection connection) {
        synchronized (connections) {
            connections.remove(connection);
        }
    }

    private void step() {
        long next = time.nanos();
        try {
            while (!closed) {
                byUnit.forEach(this::advance);
                next = Math.max(next + STEPPING.toNanos(), time.nanos());
                time.sleepUntil(next);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void advance(int unit, SimulatedDrive drive) {
        Long zero = driveZero.get(unit);
        if (zero != null) {
            drive.advanceTo(time.nanos() - zero);
        }
    }

    /** How often what stands at the other end has been switched on; a gateway before several drives has its own supply. */
    long starts() {
        return byUnit.size() == 1 ? byUnit.values().iterator().next().starts() : 1;
    }

    /** What becomes of a request. */
    WireOutcome answer(int unit, byte[] request) {
        SimulatedDrive drive = byUnit.get(unit);
        if (drive == null) {
            return new WireOutcome.Nothing();
        }
        advance(unit, drive);
        WireOutcome outcome = faults.pass(request, drive);
        if (outcome instanceof WireOutcome.Taken taken) {
            turnedAway.addAndGet(taken.attempts());
        }
        return outcome;
    }

    /**
     * Requests that have come in for its drives, whatever became of them.
     *
     * @param function function code
     * @param address first address of the request, zero-based
     */
    public long frames(int function, int address) {
        return faults.frames(function, address);
    }

    /** Ends all connections and threads and waits for them; the drives stand still from then on. */
    @Override
    public void close() {
        closed = true;
        try {
            listener.close();
        } catch (IOException e) {
            LOG.warn("port {}: closing failed", port(), e);
        }
        Set<ServerConnection> open;
        synchronized (connections) {
            open = Set.copyOf(connections);
        }
        open.forEach(ServerConnection::end);
        stepper.interrupt();
        acceptor.interrupt();
        try {
            acceptor.join(JOIN.toMillis());
            stepper.join(JOIN.toMillis());
            for (ServerConnection connection : open) {
                connection.join(JOIN);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
