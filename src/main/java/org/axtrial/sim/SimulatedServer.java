package org.axtrial.sim;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.channels.ServerSocketChannel;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
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
 *
 * <p>The number of threads does not grow with drives or connections: see {@link ServingThreads}.
 */
public final class SimulatedServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(SimulatedServer.class);

    private final ServingThreads threads;
    private final Optional<ServingThreads> own;
    private final Map<Integer, ServedDrive> byUnit;
    private final WireFaults faults = new WireFaults();
    private final ServerPort port;

    private SimulatedServer(
            ServingThreads threads,
            Optional<ServingThreads> own,
            ServerSocketChannel listener,
            int number,
            Map<Integer, SimulatedDrive> drives) {
        this.threads = threads;
        this.own = own;
        TimeSource time = SystemTime.INSTANCE;
        Map<Integer, ServedDrive> served = new TreeMap<>();
        drives.forEach((unit, drive) -> served.put(unit, new ServedDrive(drive, time)));
        this.byUnit = Map.copyOf(served);
        int most = drives.values().stream()
                .mapToInt(drive -> drive.description().maxConnections())
                .min()
                .orElse(1);
        this.port = new ServerPort(listener, number, most, threads.loop(), this);
    }

    /**
     * Starts serving on threads of its own.
     *
     * @param host address to listen on
     * @param port 1 … 65535, 0 takes a free one
     * @param byUnit drives by unit id, 0 … 255
     * @throws IOException if the port cannot be opened
     */
    public static SimulatedServer start(String host, int port, Map<Integer, SimulatedDrive> byUnit) throws IOException {
        check(byUnit);
        ServerSocketChannel listener = listen(host, port);
        try {
            ServingThreads threads = ServingThreads.start("simulated-drives-" + portOf(listener));
            return start(threads, Optional.of(threads), listener, byUnit);
        } catch (IOException e) {
            listener.close();
            throw e;
        }
    }

    /**
     * Starts serving on threads that it shares with other servers.
     *
     * @param threads stay open when the server is closed
     * @param host address to listen on
     * @param port 1 … 65535, 0 takes a free one
     * @param byUnit drives by unit id, 0 … 255
     * @throws IOException if the port cannot be opened
     */
    public static SimulatedServer start(
            ServingThreads threads, String host, int port, Map<Integer, SimulatedDrive> byUnit) throws IOException {
        check(byUnit);
        ServerSocketChannel listener = listen(host, port);
        try {
            return start(threads, Optional.empty(), listener, byUnit);
        } catch (IOException e) {
            listener.close();
            throw e;
        }
    }

    private static SimulatedServer start(
            ServingThreads threads,
            Optional<ServingThreads> own,
            ServerSocketChannel listener,
            Map<Integer, SimulatedDrive> byUnit)
            throws IOException {
        SimulatedServer server = new SimulatedServer(threads, own, listener, portOf(listener), byUnit);
        try {
            threads.loop().call(server.port::begin);
        } catch (IOException e) {
            own.ifPresent(ServingThreads::close);
            throw e;
        }
        threads.steppers().add(server.byUnit.values());
        return server;
    }

    private static void check(Map<Integer, SimulatedDrive> byUnit) {
        if (byUnit.isEmpty()) {
            throw new IllegalArgumentException("a server needs at least one drive");
        }
        for (int unit : byUnit.keySet()) {
            if (unit < 0 || unit > 255) {
                throw new IllegalArgumentException("a unit id is 0 … 255, got " + unit);
            }
        }
    }

    private static ServerSocketChannel listen(String host, int port) throws IOException {
        ServerSocketChannel listener = ServerSocketChannel.open();
        try {
            listener.setOption(StandardSocketOptions.SO_REUSEADDR, true);
            listener.bind(new InetSocketAddress(InetAddress.getByName(host), port));
            return listener;
        } catch (IOException e) {
            listener.close();
            throw new IOException("cannot listen on " + host + " port " + port + ": " + e.getMessage(), e);
        }
    }

    private static int portOf(ServerSocketChannel listener) throws IOException {
        return ((InetSocketAddress) listener.getLocalAddress()).getPort();
    }

    /** The port that it listens on. */
    public int port() {
        return port.number();
    }

    /** Connections that hold a slot now. */
    public int connections() {
        return port.connections();
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
        faults.arm(fault, served(unit).drive());
    }

    /** Disarms all faults. */
    public void clearFaults() {
        port.turnNobodyAway();
        faults.clear();
    }

    /**
     * Disarms all faults of one drive; those that were armed for every drive stay.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public void clearFaults(int unit) {
        port.turnNobodyAway();
        faults.clear(served(unit).drive());
    }

    /**
     * Disarms the faults of one drive that are chosen; those that were armed for every drive stay.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public void disarm(int unit, Predicate<WireFault> chosen) {
        faults.disarm(served(unit).drive(), chosen);
    }

    /**
     * Faults that may strike requests to a drive now or later, the one armed first in front; one that was armed for every
     * drive is among them. A drive that another answers for shows the {@link WireFault.OtherDrive} that did it.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public List<WireFault> faults(int unit) {
        return faults.of(served(unit).drive());
    }

    /**
     * Requests that have come in for one drive, whatever became of them.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public long requests(int unit) {
        return served(unit).requests();
    }

    /**
     * How well one drive keeps up with the clock.
     *
     * @throws IllegalArgumentException if no drive has that unit id
     */
    public StepLag lag(int unit) {
        return served(unit).lag();
    }

    private ServedDrive served(int unit) {
        ServedDrive drive = byUnit.get(unit);
        if (drive == null) {
            throw new IllegalArgumentException("no drive has the unit id " + unit);
        }
        return drive;
    }

    /** How often what stands at the other end has been switched on; a gateway before several drives has its own supply. */
    long starts() {
        return byUnit.size() == 1 ? byUnit.values().iterator().next().drive().starts() : 1;
    }

    /** What becomes of a request. */
    WireOutcome answer(int unit, byte[] request) {
        ServedDrive served = byUnit.get(unit);
        if (served == null) {
            return new WireOutcome.Nothing();
        }
        served.countRequest();
        served.advance();
        WireOutcome outcome = faults.pass(request, served.drive());
        if (outcome instanceof WireOutcome.Taken taken) {
            port.turnAway(taken.attempts());
        }
        return outcome;
    }

    void ended(ServerConnection connection) {
        port.ended(connection);
    }

    /** The drive has forgotten a connection, which stays open. */
    void forgot(ServerConnection connection) {
        port.forgot(connection);
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

    /** Ends all connections, and threads of its own, and waits for them; the drives stand still from then on. */
    @Override
    public void close() {
        try {
            threads.loop().call(port::close);
        } catch (IOException e) {
            LOG.warn("port {}: closing failed", port(), e);
        }
        threads.steppers().remove(byUnit.values());
        own.ifPresent(ServingThreads::close);
    }
}
