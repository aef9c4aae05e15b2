package org.axtrial.survey;

import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;

/** An axis of the demonstration behind Modbus TCP on this computer, and what a look at it needs. */
final class Bench implements AutoCloseable {

    static final int UNIT = 255;
    private static final String HOST = "127.0.0.1";
    private static final Duration DEADLINE = Duration.ofMillis(400);

    final SiteAxis axis;
    final SimulatedDrive drive;
    final SimulatedServer server;

    Bench() throws Exception {
        this(description -> description);
    }

    /** What the drive really is, beside what the site file says. */
    interface Truth {
        DriveDescription of(DriveDescription described);
    }

    Bench(Truth truth) throws Exception {
        axis = SiteFile.load(Path.of("test-scripts/demo/site.yaml")).axes().stream()
                .filter(candidate -> candidate.name().equals("INFEED"))
                .findFirst()
                .orElseThrow();
        drive = new SimulatedDrive(
                axis.name(), truth.of(axis.drive()), axis.simulation().orElseThrow(), Map.of());
        server = SimulatedServer.start(HOST, 0, Map.of(UNIT, drive));
    }

    LinkCheck.Door door() {
        return unit -> ModbusTcpLink.open(HOST, server.port(), unit, DEADLINE, SystemTime.INSTANCE);
    }

    LinkCheck.Subject subject() {
        return subject(UNIT, axis.drive());
    }

    LinkCheck.Subject subject(int unit, DriveDescription described) {
        return new LinkCheck.Subject(
                axis.name(),
                HOST + ":" + server.port() + " unit " + unit,
                unit,
                described,
                axis.setup().samplePeriod().multipliedBy(100),
                KeyPlaces.NONE);
    }

    LinkCheck.Result look(LinkCheck.Subject subject) {
        return LinkCheck.full(subject, new LinkCheck.Scope(60, false), door(), SystemTime.INSTANCE);
    }

    static DriveDescription with(
            DriveDescription d,
            List<DriveDescription.IdentityConstant> identity,
            int maxRead,
            int maxConnections,
            Optional<DriveDescription.Watchdog> watchdog) {
        return new DriveDescription(
                d.type(),
                d.style(),
                new LinkedHashMap<>(d.signals()),
                d.statusBits(),
                d.commands(),
                identity,
                d.parameters(),
                maxRead,
                maxConnections,
                watchdog,
                d.expectations(),
                d.deviceIdentification(),
                d.saveCommand(),
                d.clearPeaks());
    }

    @Override
    public void close() {
        server.close();
    }
}
