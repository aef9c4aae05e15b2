package org.axtrial.site;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisListener;
import org.axtrial.axis.StopReport;
import org.axtrial.drive.Drive;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.link.RegisterLink;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.sim.WireFault;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.axtrial.time.VirtualTime;

/**
 * One axis with everything below it, over real TCP or in process, and the truth about its shaft beside what the runner
 * is told. The drive is invented; it takes one connection and stops by itself when nobody has asked it anything for a
 * time.
 */
final class FaultBench implements AutoCloseable {

    static final Duration DEADLINE = Duration.ofMillis(150);
    /** Long enough for a loaded computer. */
    static final Duration TCP_DEADLINE = Duration.ofMillis(500);

    static final int POSITION = 0;
    static final int COMMAND = 20;
    static final int RELATIVE_MOVE = 21;
    static final int SPEED_COMMAND = 25;
    static final int NOTCH = 110;

    static final String SITE = """
            job: { id: J-1, title: Faults }
            axes:
              - name: TABLE
                drive: drive.yaml
                endpoint: { host: 192.0.2.1 }
                scale: { countsPerRevolution: 65536 }
                envelope:
                  travel: ["-20 rev", "20 rev"]
                  speed: 600 rpm
                  acceleration: 6000 rpm/s
                speed: 120 rpm
                acceleration: 3000 rpm/s
                standstill: { window: 20 count, time: 50 ms }
                stopTime: 1500 ms
                simulate:
                  motor: { ratedTorque: 2.4 Nm, inertia: 3.2 kgcm2, maxSpeed: 3000 rpm }
                  load: { inertia: 0.001 kgm2, viscousFriction: 0.0005 Nms/rad, coulombFriction: 0.05 Nm }
                  feedback: { start: 40000 count }
                  loops: { inPositionWindow: 50 count }
            target: simulated
            """;

    static final String DRIVE = SiteBench.DRIVE
            .replace("type: Invented", "type: Invented\nwatchdog: { timeout: 300 ms }")
            .replace(
                    "  watchdogTime: { address: 110, type: uint16, unit: ms }",
                    "  notch: { address: 110, type: uint16, unit: Hz, access: write }");

    /** What carries the registers. */
    enum Wire {
        IN_PROCESS,
        TCP
    }

    final SimulatedDrive simulated;
    final Axis axis;
    final Drive drive;
    final TimeSource time;
    final WatchedLink link;
    final List<Sighting> sightings = new ArrayList<>();
    final List<StopReport> stops = new ArrayList<>();
    Runnable onSample = () -> {};

    private final AutoCloseable server;
    private final Consumer<WireFault> faults;
    private final FrameCount frames;
    private double zero;
    private double lastTruth;

    private interface FrameCount {
        long of(int function, int address);
    }

    /** What the runner was told at a sample, and where the shaft truly was at the last sample and at this one, in rev. */
    record Sighting(double told, double truthBefore, double truthNow) {

        boolean isWrong() {
            double slack = 0.002;
            return told < Math.min(truthBefore, truthNow) - slack || told > Math.max(truthBefore, truthNow) + slack;
        }
    }

    FaultBench(Path folder, Wire wire) throws Exception {
        this(folder, wire, SITE, DRIVE);
    }

    FaultBench(Path folder, Wire wire, String site, String description) throws Exception {
        Files.writeString(folder.resolve("drive.yaml"), description);
        SiteAxis loaded = SiteFile.load(Files.writeString(folder.resolve("site.yaml"), site))
                .axes()
                .get(0);
        simulated = SimulatedSite.drive(loaded);
        RegisterLink below;
        if (wire == Wire.TCP) {
            SimulatedServer serving = SimulatedServer.start("127.0.0.1", 0, Map.of(1, simulated));
            server = serving;
            faults = serving::fault;
            frames = serving::frames;
            time = SystemTime.INSTANCE;
            below = ModbusTcpLink.open("127.0.0.1", serving.port(), 1, TCP_DEADLINE, time);
        } else {
            VirtualTime virtual = new VirtualTime(Instant.EPOCH);
            InProcessLink within = new InProcessLink(simulated, virtual, DEADLINE);
            server = () -> {};
            faults = within::fault;
            frames = within::frames;
            time = virtual;
            below = within;
        }
        link = new WatchedLink(below, time);
        drive = Drive.over(link, loaded.drive(), time);
        axis = Axis.over(loaded.setup(), drive, time);
        axis.listen(new AxisListener() {
            @Override
            public void sampled(String name, double position, double speed) {
                double truth = truth();
                sightings.add(new Sighting(position, lastTruth, truth));
                lastTruth = truth;
                onSample.run();
            }

            @Override
            public void stopped(StopReport report) {
                stops.add(report);
            }
        });
    }

    /** Armed, in a trial, enabled, at rest; positions count from here. */
    FaultBench ready() throws InterruptedException {
        if (time instanceof VirtualTime virtual) {
            virtual.advance(20_000_000);
        } else {
            time.sleepUntil(time.nanos() + 20_000_000);
        }
        axis.arm();
        axis.beginTrial();
        axis.enable();
        zero = simulated.shaftAngle() / (2 * Math.PI);
        return this;
    }

    /** True position of the shaft in rev from the start. */
    double truth() {
        return simulated.shaftAngle() / (2 * Math.PI) - zero;
    }

    void fault(WireFault fault) {
        link.await(fault.strikes());
        faults.accept(fault);
    }

    long frames(int function, int address) {
        return frames.of(function, address);
    }

    @Override
    public void close() throws IOException {
        link.close();
        try {
            server.close();
        } catch (Exception e) {
            throw new IOException("closing the server failed", e);
        }
    }
}
