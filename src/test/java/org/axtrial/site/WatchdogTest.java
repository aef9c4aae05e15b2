package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.axtrial.axis.DriveTrippedException;
import org.axtrial.axis.MoveOptions;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.Deadline;
import org.axtrial.time.SystemTime;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The drive's own watchdog is the last resort, so nothing but the supervising loop may keep it quiet. */
@Timeout(60)
class WatchdogTest {

    private static final String KEEP_ALIVE = FaultBench.DRIVE
            .replace(
                    "watchdog: { timeout: 300 ms }",
                    "watchdog: { timeout: 300 ms, keepAlive: { signal: lifeSign, values: [0, 1] } }")
            .replace("parameters:", "parameters:\n  lifeSign: { address: 111, type: uint16, access: write }");
    private static final int LIFE_SIGN = 111;

    @TempDir
    Path folder;

    private static void spin(FaultBench bench, Duration hold) throws InterruptedException {
        bench.axis.holdSpeed(Quantity.parse("120 rpm"), hold, MoveOptions.DEFAULT);
    }

    /** Also when somebody else keeps reading over the same link: only the keep-alive counts where there is one. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aHungRunnerLetsTheDriveStopAndTellsItWhenItComesBack(boolean keepAlive) throws Exception {
        SystemTime time = SystemTime.INSTANCE;
        CountDownLatch hung = new CountDownLatch(1);
        CountDownLatch back = new CountDownLatch(1);
        ExecutorService runner = Executors.newSingleThreadExecutor();
        try (FaultBench bench = new FaultBench(
                        folder, FaultBench.Wire.TCP, FaultBench.SITE, keepAlive ? KEEP_ALIVE : FaultBench.DRIVE)
                .ready()) {
            bench.onSample = () -> {
                if (bench.sightings.size() == 30) {
                    hung.countDown();
                    awaitQuietly(back);
                }
            };
            Future<Throwable> end = runner.submit(() -> catchThrowable(() -> spin(bench, Duration.ofSeconds(5))));
            assertThat(hung.await(20, TimeUnit.SECONDS)).isTrue();
            assertThat(bench.simulated.shaftSpeed()).as("it moves").isGreaterThan(1);
            Deadline patience = Deadline.in(time, Duration.ofSeconds(20));
            while (bench.simulated.shaftSpeed() != 0 && !patience.isPassed()) {
                if (keepAlive) {
                    bench.drive.read("position");
                }
                time.sleepUntil(time.nanos() + 5_000_000);
            }
            assertThat(bench.simulated.shaftSpeed()).isZero();
            // Source: IEC 61800-7-201 error code 7500h, communication.
            assertThat(bench.simulated.faultCode()).isEqualTo(0x7500);
            back.countDown();
            assertThat(end.get(20, TimeUnit.SECONDS))
                    .isInstanceOf(DriveTrippedException.class)
                    .hasMessageContaining("0x7500");
            assertThat(bench.stops).hasSize(1);
            assertThat(bench.stops.get(0).standstill()).isTrue();
        } finally {
            runner.shutdownNow();
        }
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void theDriveStopsWithinItsWatchdogTimeAndItsRamp(boolean keepAlive) throws Exception {
        try (FaultBench bench = new FaultBench(
                        folder, FaultBench.Wire.IN_PROCESS, FaultBench.SITE, keepAlive ? KEEP_ALIVE : FaultBench.DRIVE)
                .ready()) {
            double[] speeds = new double[2];
            bench.onSample = () -> {
                if (bench.sightings.size() == 60 && bench.time instanceof VirtualTime virtual) {
                    // The loop hangs; nobody exchanges anything while time goes on.
                    long now = bench.simulated.nanos();
                    bench.simulated.advanceTo(now + 220_000_000);
                    speeds[0] = bench.simulated.shaftSpeed();
                    // 300 ms of watchdog, then 2 rev/s at 50 rev/s2, 40 ms, and the loops settle.
                    bench.simulated.advanceTo(now + 300_000_000 + 150_000_000);
                    speeds[1] = bench.simulated.shaftSpeed();
                    virtual.advance(450_000_000);
                }
            };
            assertThatThrownBy(() -> spin(bench, Duration.ofSeconds(5)))
                    .isInstanceOf(DriveTrippedException.class)
                    .hasMessageContaining("0x7500");
            assertThat(Math.abs(speeds[0])).as("not before its time").isGreaterThan(10);
            assertThat(Math.abs(speeds[1])).isLessThan(0.05);
        }
    }

    @Test
    void theKeepAliveIsWrittenInTurnWhileTheAxisIsWatchedAndNotBetween() throws Exception {
        try (FaultBench bench =
                new FaultBench(folder, FaultBench.Wire.IN_PROCESS, FaultBench.SITE, KEEP_ALIVE).ready()) {
            spin(bench, Duration.ofSeconds(2));
            assertThat(bench.simulated.faultCode()).isZero();
            long written = bench.frames(6, LIFE_SIGN);
            // Every 75 ms, a quarter of 300 ms, over a little more than two seconds.
            assertThat(written).isBetween(24L, 40L);
            assertThat(bench.simulated.writes(LIFE_SIGN)).isEqualTo((int) written);
            bench.drive.read("position");
            assertThat(bench.frames(6, LIFE_SIGN)).isEqualTo(written);
        }
    }

    @Test
    void aSamplePeriodAboveAThirdOfTheWatchdogIsRefusedWithARemedy() {
        SiteBench bench = new SiteBench(folder)
                .drive("type: Invented", "type: Invented\nwatchdog: { timeout: 300 ms }")
                .site("name: TABLE", "name: TABLE\n    samplePeriod: 101 ms");
        assertThat(bench.problems())
                .containsExactly(
                        "site.yaml:4:19: axes[0].samplePeriod: expected at most a third of the watchdog of the drive, 100 ms of"
                                + " 300 ms, found \"101 ms\": sample more often, or set a longer watchdog in the drive and"
                                + " tell it in the description");
    }

    @Test
    void aSamplePeriodOfAThirdIsTaken() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .drive("type: Invented", "type: Invented\nwatchdog: { timeout: 300 ms }")
                .site("name: TABLE", "name: TABLE\n    samplePeriod: 100 ms")
                .load();
        assertThat(site.axes().get(0).setup().samplePeriod()).hasMillis(100);
    }

    @Test
    void aKeepAliveThatCannotBeWrittenIsRefused() {
        SiteBench bench = new SiteBench(folder)
                .drive(
                        "type: Invented",
                        "type: Invented\nwatchdog: { timeout: 1 s, keepAlive: { signal: watchdogTime, values: [0, 70000] } }");
        assertThat(bench.problems())
                .containsExactly(
                        "drive.yaml:2:48: watchdog.keepAlive.signal: the tool must write watchdogTime;"
                                + " expected access: write there",
                        "drive.yaml:2:74: watchdog.keepAlive.values[1]: watchdogTime is uint16 and cannot carry 70000");
    }
}
