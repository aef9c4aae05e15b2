package org.axtrial.site;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.axis.Axis;
import org.axtrial.drive.Drive;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.SharedConnection;
import org.axtrial.link.Transport;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.axtrial.time.VirtualTime;
import org.slf4j.LoggerFactory;

/**
 * The axes of a site, opened. Owns every connection, simulated drive and server, and closes them in reverse order.
 * Simulated axes are armed; real ones wait for the operator.
 */
public final class Rig implements AutoCloseable {

    private static final String LOOPBACK = "127.0.0.1";

    private final Map<String, Axis> axes = new LinkedHashMap<>();
    private final Map<String, String> peers = new LinkedHashMap<>();
    private final Map<String, RegisterLink> links = new LinkedHashMap<>();
    private final Map<Transport, SharedConnection> connections = new HashMap<>();
    private final Deque<AutoCloseable> open = new ArrayDeque<>();

    private Rig() {}

    /**
     * Opens every axis of a site. Nothing is written to any drive.
     *
     * @throws RigException if an axis cannot be opened; it names every axis with its trouble, and nothing stays open
     */
    public static Rig open(Site site, How how) throws RigException {
        Rig rig = new Rig();
        Optional<SimulatedSite> simulated =
                how == How.SIMULATED ? Optional.of(rig.keep(SimulatedSite.start(site, LOOPBACK, 0))) : Optional.empty();
        List<String> troubles = new ArrayList<>();
        Optional<RehearsalBench> rehearsal =
                how == How.REHEARSAL ? Optional.of(new RehearsalBench(site)) : Optional.empty();
        for (SiteAxis axis : site.axes()) {
            try {
                rig.add(axis, how, simulated, rehearsal);
            } catch (LinkLostException | MissingSimulationException e) {
                troubles.add(axis.name() + ": " + e.getMessage());
            }
        }
        if (!troubles.isEmpty()) {
            rig.close();
            throw new RigException(troubles);
        }
        return rig;
    }

    private void add(SiteAxis axis, How how, Optional<SimulatedSite> simulated, Optional<RehearsalBench> rehearsal)
            throws LinkLostException, MissingSimulationException {
        switch (how) {
            case REAL -> connect(axis, axis.endpoint().transport());
            case SIMULATED -> {
                int port = simulated.orElseThrow().served(axis.name()).port();
                connect(axis, new Transport.Tcp(LOOPBACK, port)).arm();
            }
            case REHEARSAL -> {
                RehearsalBench bench = rehearsal.orElseThrow();
                VirtualTime time = bench.time(axis);
                SimulatedDrive drive = bench.drive(axis);
                InProcessLink link =
                        keep(new InProcessLink(drive, time, axis.endpoint().deadline()));
                axis.faults().forEach(link::fault);
                add(axis, link, time).arm();
            }
        }
    }

    /** One connection leads to each endpoint, whatever number of axes is behind it: drives may allow no second one. */
    private Axis connect(SiteAxis axis, Transport transport) throws LinkLostException {
        SystemTime time = SystemTime.INSTANCE;
        SharedConnection connection =
                connections.computeIfAbsent(transport, place -> keep(SharedConnection.to(place, time)));
        Endpoint endpoint = axis.endpoint();
        return add(axis, keep(connection.open(endpoint.unit(), endpoint.deadline())), time);
    }

    private Axis add(SiteAxis axis, RegisterLink link, TimeSource time) {
        Axis opened = Axis.over(axis.setup(), Drive.over(link, axis.drive(), time), time);
        axes.put(axis.name(), opened);
        peers.put(axis.name(), link.peer());
        links.put(axis.name(), link);
        return opened;
    }

    private <T extends AutoCloseable> T keep(T resource) {
        open.push(resource);
        return resource;
    }

    /** The axes in the order of the site file. */
    public List<Axis> axes() {
        return List.copyOf(axes.values());
    }

    /**
     * Host, port and unit that an axis is reached by.
     *
     * @throws IllegalArgumentException if there is no such axis
     */
    public String peer(String axis) {
        String peer = peers.get(axis);
        if (peer == null) {
            throw new IllegalArgumentException("no axis is named " + axis);
        }
        return peer;
    }

    /**
     * The link that an axis works over, for looking before it moves.
     *
     * @throws IllegalArgumentException if there is no such axis
     */
    public RegisterLink link(String axis) {
        RegisterLink link = links.get(axis);
        if (link == null) {
            throw new IllegalArgumentException("no axis is named " + axis);
        }
        return link;
    }

    @Override
    public void close() {
        while (!open.isEmpty()) {
            closeQuietly(open.pop());
        }
    }

    /** A connection that cannot be closed properly is gone as well, and the others must still be closed. */
    private static void closeQuietly(AutoCloseable resource) {
        try {
            resource.close();
        } catch (Exception e) {
            LoggerFactory.getLogger(Rig.class).warn("could not close {}", resource, e);
        }
    }
}
