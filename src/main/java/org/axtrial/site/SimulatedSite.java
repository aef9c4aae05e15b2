package org.axtrial.site;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.link.Transport;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.SignalNames;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;

/**
 * The simulated drives of a site, served on Modbus TCP, one port for each endpoint: drives that share a connection in
 * the site share one here.
 */
public final class SimulatedSite implements AutoCloseable {

    private final Map<String, Served> served = new LinkedHashMap<>();
    private final Map<String, SimulatedDrive> drives = new LinkedHashMap<>();
    /** Names of the axes in the order of the site file. */
    private final List<String> order;

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

    private SimulatedSite(List<String> order) {
        this.order = order;
    }

    /**
     * Serves every axis.
     *
     * @param host address to listen on
     * @param firstPort port of the first endpoint, the others follow; 0 takes free ones
     * @throws RigException if an axis cannot be served; it names every one, and nothing stays open
     */
    public static SimulatedSite start(Site site, String host, int firstPort) throws RigException {
        SimulatedSite started =
                new SimulatedSite(site.axes().stream().map(SiteAxis::name).toList());
        List<String> troubles = new ArrayList<>();
        int port = firstPort;
        for (List<SiteAxis> sharing : byEndpoint(site)) {
            started.serve(sharing, host, port, troubles);
            port += firstPort == 0 ? 0 : 1;
        }
        if (!troubles.isEmpty()) {
            started.close();
            throw new RigException(troubles);
        }
        return started;
    }

    private static Collection<List<SiteAxis>> byEndpoint(Site site) {
        Map<Transport, List<SiteAxis>> sharing = new LinkedHashMap<>();
        for (SiteAxis axis : site.axes()) {
            sharing.computeIfAbsent(axis.endpoint().transport(), transport -> new ArrayList<>())
                    .add(axis);
        }
        return sharing.values();
    }

    private void serve(List<SiteAxis> sharing, String host, int port, List<String> troubles) {
        Map<Integer, SimulatedDrive> byUnit = new LinkedHashMap<>();
        for (SiteAxis axis : sharing) {
            try {
                SimulatedDrive drive = drive(axis);
                byUnit.put(axis.endpoint().unit(), drive);
                drives.put(axis.name(), drive);
            } catch (MissingSimulationException e) {
                troubles.add(axis.name() + ": " + e.getMessage());
            }
        }
        if (byUnit.size() < sharing.size()) {
            return;
        }
        try {
            SimulatedServer server = SimulatedServer.start(host, port, byUnit);
            servers.add(server);
            for (SiteAxis axis : sharing) {
                axis.faults().forEach(fault -> server.fault(axis.endpoint().unit(), fault));
                served.put(
                        axis.name(),
                        new Served(
                                axis.name(),
                                axis.drive().type(),
                                server.port(),
                                axis.endpoint().unit()));
            }
        } catch (IOException e) {
            troubles.add(sharing.get(0).name() + ": cannot listen on " + host + ":" + port + " (" + e.getMessage()
                    + "); another program may be using it");
        }
    }

    /** The drive that stands for the one of an axis. */
    static SimulatedDrive drive(SiteAxis axis) throws MissingSimulationException {
        return new SimulatedDrive(
                axis.name(),
                axis.drive(),
                axis.simulation()
                        .orElseThrow(() -> new MissingSimulationException(
                                "the site file does not say how to simulate this axis; add a simulate: block to it")),
                startValues(axis.drive(), axis.name()));
    }

    /** Constants that parameters show, and a serial number of its own for each axis, as real drives have. */
    private static Map<String, Double> startValues(DriveDescription drive, String axis) {
        Map<String, Double> values = new LinkedHashMap<>();
        drive.parameters().forEach(parameter -> {
            Expectation expected = drive.expectations().get(parameter.name());
            if (expected != null && expected.constant().isPresent()) {
                values.put(parameter.name(), expected.constant().getAsDouble());
            } else if (parameter.name().equals(SignalNames.SERIAL_NUMBER)) {
                values.put(parameter.name(), 10_000.0 + Math.floorMod(axis.hashCode(), 20_000));
            }
        });
        return values;
    }

    /** What is served, in the order of the site file. */
    public List<Served> served() {
        return order.stream().map(this::served).toList();
    }

    /** Where one axis is served. */
    Served served(String axis) {
        Served found = served.get(axis);
        if (found == null) {
            throw new IllegalArgumentException("no axis is named " + axis);
        }
        return found;
    }

    /** The drive that is served for an axis. */
    SimulatedDrive simulated(String axis) {
        SimulatedDrive found = drives.get(axis);
        if (found == null) {
            throw new IllegalArgumentException("no axis is named " + axis);
        }
        return found;
    }

    @Override
    public void close() {
        servers.forEach(SimulatedServer::close);
    }
}
