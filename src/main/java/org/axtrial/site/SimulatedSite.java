package org.axtrial.site;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.SignalNames;
import org.axtrial.sim.ServingThreads;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;

/**
 * The simulated drives of a site, served on Modbus TCP, one port for each endpoint: drives that share a connection in
 * the site share one here.
 */
public final class SimulatedSite implements AutoCloseable {

    private static final int LAST_PORT = 65_535;

    private final ServingThreads threads;
    /** By name, in the order of the site file, copy after copy. */
    private final Map<String, ServedAxis> axes = new LinkedHashMap<>();

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

    private SimulatedSite(ServingThreads threads) {
        this.threads = threads;
    }

    /** Serves every axis once, with the ports and errors of {@link #start(Site, ServingPlan, String, int)}. */
    public static SimulatedSite start(Site site, String host, int firstPort) throws RigException {
        return start(site, ServingPlan.AS_IN_SITE, host, firstPort);
    }

    /**
     * Serves axes.
     *
     * @param host address to listen on
     * @param firstPort port of the first endpoint, the others follow; 0 takes free ones
     * @throws RigException if an axis cannot be served; it names every one, and nothing stays open
     * @throws IllegalArgumentException if the plan cannot be carried out with this site and these ports
     */
    public static SimulatedSite start(Site site, ServingPlan plan, String host, int firstPort) throws RigException {
        List<List<ServingPlan.Place>> ports = plan.ports(site);
        if (firstPort != 0 && firstPort + ports.size() - 1 > LAST_PORT) {
            throw new IllegalArgumentException(ports.size() + " ports from " + firstPort + " on end above " + LAST_PORT
                    + "; begin lower, or put all drives behind one port");
        }
        SimulatedSite started = new SimulatedSite(threads());
        List<String> troubles = new ArrayList<>();
        Map<String, ServedAxis> found = new HashMap<>();
        Map<String, CoupledAxes.Simulated> drives = drives(ports, troubles);
        if (troubles.isEmpty()) {
            CoupledAxes.couple(plan.couplings(site), drives);
        }
        int port = firstPort;
        for (List<ServingPlan.Place> sharing : ports) {
            started.serve(sharing, drives, host, port, troubles).forEach(axis -> found.put(axis.name(), axis));
            port += firstPort == 0 ? 0 : 1;
        }
        if (!troubles.isEmpty()) {
            started.close();
            throw new RigException(troubles);
        }
        for (String name : plan.names(site)) {
            ServedAxis axis = found.get(name);
            if (axis != null) {
                started.axes.put(name, axis);
            }
        }
        return started;
    }

    private static ServingThreads threads() throws RigException {
        try {
            return ServingThreads.start("simulated-drives");
        } catch (IOException e) {
            throw new RigException(List.of("simulated drives cannot be served: " + e.getMessage()));
        }
    }

    /** A drive for every place, by the name of its axis. */
    private static Map<String, CoupledAxes.Simulated> drives(
            List<List<ServingPlan.Place>> ports, List<String> troubles) {
        Map<String, CoupledAxes.Simulated> drives = new HashMap<>();
        for (List<ServingPlan.Place> sharing : ports) {
            for (ServingPlan.Place place : sharing) {
                try {
                    drives.put(place.axis().name(), new CoupledAxes.Simulated(place.axis(), drive(place.axis())));
                } catch (MissingSimulationException e) {
                    troubles.add(place.axis().name() + ": " + e.getMessage());
                }
            }
        }
        return drives;
    }

    private List<ServedAxis> serve(
            List<ServingPlan.Place> sharing,
            Map<String, CoupledAxes.Simulated> drives,
            String host,
            int port,
            List<String> troubles) {
        Map<Integer, SimulatedDrive> byUnit = new LinkedHashMap<>();
        for (ServingPlan.Place place : sharing) {
            CoupledAxes.Simulated simulated = drives.get(place.axis().name());
            if (simulated != null) {
                byUnit.put(place.unit(), simulated.drive());
            }
        }
        if (byUnit.size() < sharing.size()) {
            return List.of();
        }
        try {
            SimulatedServer server = SimulatedServer.start(threads, host, port, byUnit);
            servers.add(server);
            List<ServedAxis> served = new ArrayList<>();
            for (ServingPlan.Place place : sharing) {
                place.axis().faults().forEach(fault -> server.fault(place.unit(), fault));
                SimulatedDrive drive = byUnit.get(place.unit());
                if (drive != null) {
                    served.add(new ServedAxis(place.axis(), place.unit(), drive, server));
                }
            }
            return served;
        } catch (IOException e) {
            troubles.add(sharing.get(0).axis().name() + ": cannot listen on " + host + ":" + port + " ("
                    + e.getMessage() + "); another program may be using it");
            return List.of();
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

    /** Every served axis, in the order of the site file, copy after copy. */
    public List<ServedAxis> axes() {
        return List.copyOf(axes.values());
    }

    /** What is served, in the same order. */
    public List<Served> served() {
        return axes.values().stream().map(SimulatedSite::place).toList();
    }

    /** Where one axis is served. */
    Served served(String axis) {
        return place(axis(axis));
    }

    private static Served place(ServedAxis axis) {
        return new Served(axis.name(), axis.driveType(), axis.port(), axis.unit());
    }

    /** The drive that is served for an axis. */
    SimulatedDrive simulated(String axis) {
        return axis(axis).drive();
    }

    private ServedAxis axis(String name) {
        ServedAxis found = axes.get(name);
        if (found == null) {
            throw new IllegalArgumentException("no axis is named " + name);
        }
        return found;
    }

    /** Ends every server and their threads; the drives stand still from then on. */
    @Override
    public void close() {
        servers.forEach(SimulatedServer::close);
        threads.close();
    }
}
