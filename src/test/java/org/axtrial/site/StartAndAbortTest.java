package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisListener;
import org.axtrial.axis.MoveOptions;
import org.axtrial.drive.Drive;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.sim.WireFault;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A drive that takes one connection is never locked out, however a run ends. */
@Timeout(120)
class StartAndAbortTest {

    private static final Duration DEADLINE = Duration.ofSeconds(2);
    private static final int CYCLES = 200;

    private final SystemTime time = SystemTime.INSTANCE;
    private final ExecutorService runner = Executors.newSingleThreadExecutor();

    @TempDir
    Path folder;

    private SiteAxis site;
    private SimulatedServer server;

    @BeforeEach
    void serve() throws Exception {
        Files.writeString(folder.resolve("drive.yaml"), FaultBench.DRIVE);
        site = SiteFile.load(Files.writeString(folder.resolve("site.yaml"), FaultBench.SITE))
                .axes()
                .get(0);
        assertThat(site.drive().maxConnections()).isEqualTo(1);
        SimulatedDrive drive = SimulatedSite.drive(site);
        server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive));
    }

    @AfterEach
    void close() {
        runner.shutdownNow();
        server.close();
    }

    @Test
    void twoHundredStartsAndAbortsFindTheDriveEachTime() throws Exception {
        for (int cycle = 0; cycle < CYCLES; cycle++) {
            try (ModbusTcpLink link = ModbusTcpLink.open("127.0.0.1", server.port(), 1, DEADLINE, time)) {
                assertThat(link.read(3, 0, 2).words()).as("cycle %d", cycle).hasSize(2);
                switch (cycle % 10) {
                    case 0, 1, 2 -> {} // hangs up at once
                    case 3, 4, 5 -> closeWithinAnExchange(link);
                    case 6, 7 -> abort(link, Abort.SAFE_STOP);
                    case 8 -> abort(link, Abort.INTERRUPT);
                    default -> abort(link, Abort.HANG_UP);
                }
            }
        }
    }

    private enum Abort {
        SAFE_STOP,
        INTERRUPT,
        HANG_UP
    }

    private void closeWithinAnExchange(ModbusTcpLink link) throws Exception {
        long before = server.frames(3, 5);
        server.fault(new WireFault.DelayReply(3, Duration.ofMinutes(1), 1));
        Future<Throwable> end = runner.submit(() -> catchThrowable(() -> link.read(3, 5, 1)));
        while (server.frames(3, 5) == before) {
            time.sleepUntil(time.nanos() + 100_000);
        }
        link.close();
        assertThat(end.get(20, TimeUnit.SECONDS)).isNotNull();
    }

    private void abort(ModbusTcpLink link, Abort how) throws Exception {
        Drive drive = Drive.over(link, site.drive(), time);
        // An earlier runner may have left the drive to its watchdog: wait until it rests, then acknowledge.
        Axis axis = Axis.over(site.setup(), drive, time);
        axis.arm();
        axis.beginTrial();
        drive.resetFault(DEADLINE);
        axis.enable();
        CountDownLatch moving = new CountDownLatch(12);
        axis.listen(new AxisListener() {
            @Override
            public void sampled(String name, double position, double speed) {
                moving.countDown();
            }
        });
        Future<Throwable> end = runner.submit(() -> catchThrowable(
                () -> axis.holdSpeed(Quantity.parse("60 rpm"), Duration.ofSeconds(10), MoveOptions.DEFAULT)));
        assertThat(moving.await(20, TimeUnit.SECONDS)).isTrue();
        switch (how) {
            case SAFE_STOP -> assertThat(axis.safeStop("test").standstill()).isTrue();
            case INTERRUPT -> {
                end.cancel(true);
                axis.safeStop("test");
            }
            case HANG_UP -> link.close();
        }
        if (how != Abort.INTERRUPT) {
            assertThat(end.get(20, TimeUnit.SECONDS)).isNotNull();
        }
        runner.submit(() -> {}).get(20, TimeUnit.SECONDS);
    }
}
