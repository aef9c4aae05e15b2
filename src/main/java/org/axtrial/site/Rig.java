package org.axtrial.site;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.axis.Axis;
import org.axtrial.drive.Drive;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.link.RegisterLink;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
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
    private final Deque<AutoCloseable> open = new ArrayDeque<>();

    private Rig() {}

    /**
     * Opens every axis of a site. Nothing is written to any drive.
     *
     * @throws RigException if an axis cannot be opened; it names every axis with its trouble, and nothing stays open
     */
    public static Rig open(Site site, How how) throws RigException {
        Rig rig = new Rig();
        List<String> troubles = new ArrayList<>();
        for (SiteAxis axis : site.axes()) {
            try {
                rig.add(axis, how);
            } catch (LinkLostException | IOException | MissingSimulationException e) {
                troubles.add(axis.name() + ": " + e.getMessage());
            }
        }
        if (!troubles.isEmpty()) {
            rig.close();
            throw new RigException(troubles);
        }
        return rig;
    }

    private void add(SiteAxis axis, How how) throws LinkLostException, IOException, MissingSimulationException {
        switch (how) {
            case REAL -> connect(axis, axis.endpoint().host(), axis.endpoint().port());
            case SIMULATED -> {
                SimulatedServer server =
                        serve(SimulatedSite.drive(axis), axis.endpoint().unit());
                axis.faults().forEach(server::fault);
                connect(axis, LOOPBACK, server.port()).arm();
            }
            case REHEARSAL -> {
                VirtualTime time = new VirtualTime(Instant.EPOCH);
                InProcessLink link = keep(new InProcessLink(
                        SimulatedSite.drive(axis), time, axis.endpoint().deadline()));
                axis.faults().forEach(link::fault);
                add(axis, link, time).arm();
            }
        }
    }

    private SimulatedServer serve(SimulatedDrive drive, int unit) throws IOException {
        return keep(SimulatedServer.start(LOOPBACK, 0, Map.of(unit, drive)));
    }

    private Axis connect(SiteAxis axis, String host, int port) throws LinkLostException {
        SystemTime time = SystemTime.INSTANCE;
        Endpoint endpoint = axis.endpoint();
        return add(axis, keep(ModbusTcpLink.open(host, port, endpoint.unit(), endpoint.deadline(), time)), time);
    }

    private Axis add(SiteAxis axis, RegisterLink link, TimeSource time) {
        Axis opened = Axis.over(axis.setup(), Drive.over(link, axis.drive(), time), time);
        axes.put(axis.name(), opened);
        peers.put(axis.name(), link.peer());
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
