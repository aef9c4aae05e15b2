package org.axtrial.site;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.link.RegisterLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.time.SystemTime;

/**
 * Bare links to the drives of a site, one axis at a time, for looking without an axis that could move. An axis that cannot
 * be reached does not keep the others from being looked at. Owns the simulated drives that it starts.
 */
public final class SiteLinks implements AutoCloseable {

    private static final String LOOPBACK = "127.0.0.1";

    private final Deque<SimulatedServer> servers = new ArrayDeque<>();
    private final Map<String, SimulatedServer> byAxis = new HashMap<>();
    private final Map<String, SimulatedDrive> drives = new HashMap<>();

    private SiteLinks() {}

    /**
     * Makes the drives reachable; contacts none.
     *
     * @param how {@code REAL} for the endpoints of the site file, anything else for simulated drives on this computer
     * @throws RigException if a drive cannot be simulated; nothing stays open
     */
    public static SiteLinks of(Site site, How how) throws RigException {
        SiteLinks links = new SiteLinks();
        List<String> troubles = new ArrayList<>();
        for (SiteAxis axis : how == How.REAL ? List.<SiteAxis>of() : site.axes()) {
            try {
                links.serve(axis);
            } catch (IOException | MissingSimulationException e) {
                troubles.add(axis.name() + ": " + e.getMessage());
            }
        }
        if (!troubles.isEmpty()) {
            links.close();
            throw new RigException(troubles);
        }
        return links;
    }

    private void serve(SiteAxis axis) throws IOException, MissingSimulationException {
        SimulatedDrive drive = SimulatedSite.drive(axis);
        SimulatedServer server =
                SimulatedServer.start(LOOPBACK, 0, Map.of(axis.endpoint().unit(), drive));
        servers.push(server);
        byAxis.put(axis.name(), server);
        drives.put(axis.name(), drive);
    }

    /**
     * Opens one connection to the device of an axis.
     *
     * @param unit unit id to speak to, usually the one of the axis
     * @throws LinkLostException if it cannot be made
     */
    public RegisterLink open(SiteAxis axis, int unit) throws LinkLostException {
        SimulatedServer server = byAxis.get(axis.name());
        Endpoint end = axis.endpoint();
        return ModbusTcpLink.open(
                server == null ? end.host() : LOOPBACK,
                server == null ? end.port() : server.port(),
                unit,
                end.deadline(),
                SystemTime.INSTANCE);
    }

    /** Host, port and unit that an axis is looked for at. */
    public String peer(SiteAxis axis) {
        SimulatedServer server = byAxis.get(axis.name());
        Endpoint end = axis.endpoint();
        return (server == null ? end.host() + ":" + end.port() : LOOPBACK + ":" + server.port()) + " unit "
                + end.unit();
    }

    /** The simulated drive of an axis; empty for a real one. */
    public Optional<SimulatedDrive> simulated(String axis) {
        return Optional.ofNullable(drives.get(axis));
    }

    @Override
    public void close() {
        servers.forEach(SimulatedServer::close);
    }
}
