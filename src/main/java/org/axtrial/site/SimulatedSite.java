package org.axtrial.site;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;

/** The simulated drives of a site, served on Modbus TCP, one port for each axis. */
public final class SimulatedSite implements AutoCloseable {

    private final List<Served> served = new ArrayList<>();
    private final List<SimulatedServer> servers = new ArrayList<>();

    /**
     * Where an axis is served.
     *
     * @param axis name
     * @param driveType from the drive description
     * @param port TCP port
     * @param unit unit identifier
     */
    public record Served(String axis, String driveType, int port, int unit) {}

    private SimulatedSite() {}

    /**
     * Serves every axis.
     *
     * @param host address to listen on
     * @param firstPort port of the first axis, the others follow; 0 takes free ones
     * @throws RigException if an axis cannot be served; it names every one, and nothing stays open
     */
    public static SimulatedSite start(Site site, String host, int firstPort) throws RigException {
        SimulatedSite started = new SimulatedSite();
        List<String> troubles = new ArrayList<>();
        for (int i = 0; i < site.axes().size(); i++) {
            SiteAxis axis = site.axes().get(i);
            int port = firstPort == 0 ? 0 : firstPort + i;
            try {
                started.serve(axis, host, port);
            } catch (IOException e) {
                troubles.add(axis.name() + ": cannot listen on " + host + ":" + port + " (" + e.getMessage()
                        + "); another program may be using it");
            } catch (MissingSimulationException e) {
                troubles.add(axis.name() + ": " + e.getMessage());
            }
        }
        if (!troubles.isEmpty()) {
            started.close();
            throw new RigException(troubles);
        }
        return started;
    }

    private void serve(SiteAxis axis, String host, int port) throws IOException, MissingSimulationException {
        int unit = axis.endpoint().unit();
        SimulatedServer server = SimulatedServer.start(host, port, Map.of(unit, drive(axis)));
        servers.add(server);
        axis.faults().forEach(server::fault);
        served.add(new Served(axis.name(), axis.drive().type(), server.port(), unit));
    }

    /** The drive that stands for the one of an axis. */
    static SimulatedDrive drive(SiteAxis axis) throws MissingSimulationException {
        return new SimulatedDrive(
                axis.name(),
                axis.drive(),
                axis.simulation()
                        .orElseThrow(() -> new MissingSimulationException(
                                "the site file does not say how to simulate this axis; add a simulate: block to it")));
    }

    /** What is served, in the order of the site file. */
    public List<Served> served() {
        return List.copyOf(served);
    }

    @Override
    public void close() {
        servers.forEach(SimulatedServer::close);
    }
}
