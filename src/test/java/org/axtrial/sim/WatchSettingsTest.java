package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Windows and times of CiA 402: objects 6065h … 6068h. */
class WatchSettingsTest {

    private static final double TURN = InventedDrives.COUNTS;

    // Kv 50, no feed-forward: 10 rev/s lag by v/Kv = 0.2 revolutions. Source: machine-tool definition of Kv.
    private final Bench bench =
            new Bench(InventedDrives.wholeCia402(), InventedDrives.axis(InventedDrives.loops(50, 0)));

    @Test
    void theyStartAsTheDriveIsTuned() {
        assertThat(bench.read("followingErrorWindow")).isEqualTo(20 * TURN);
        assertThat(bench.read("followingErrorTime")).isEqualTo(10);
        assertThat(bench.read("positionWindow")).isEqualTo(20);
        assertThat(bench.read("positionWindowTime")).isEqualTo(5);
    }

    @Test
    void moreThanTheWindowForLongerThanTheTimeOutTrips() {
        bench.enabledCia402(3);
        bench.write("followingErrorWindow", 0.19 * TURN);
        bench.write("followingErrorTime", 300);
        bench.write("profileAcceleration", 30_000);
        bench.write("targetSpeed", 600);
        bench.pass(250);
        assertThat(bench.read("followingError")).isCloseTo(0.2 * TURN, within(200.0));
        assertThat(bench.read("faultCode")).isZero();
        bench.pass(250);
        assertThat(bench.read("faultCode")).isEqualTo(0x8611);
    }

    @Test
    void aWiderWindowAndTheHighestNumberDoNotTrip() {
        for (double window : new double[] {0.21 * TURN, 4_294_967_295.0}) {
            Bench fresh = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis(InventedDrives.loops(50, 0)));
            fresh.enabledCia402(3);
            fresh.write("followingErrorWindow", window);
            fresh.write("targetSpeed", 600);
            fresh.pass(2000);
            assertThat(fresh.read("faultCode")).isZero();
        }
    }

    @Test
    void targetReachedComesTheWindowTimeLater() {
        double plain = timeToTarget(20, 5);
        assertThat(timeToTarget(20, 205) - plain).isCloseTo(200, within(1.0));
        assertThat(timeToTarget(2000, 5))
                .as("a wider window is entered earlier")
                .isLessThan(plain - 20);
    }

    private static double timeToTarget(double window, double time) {
        Bench fresh = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis(InventedDrives.loops(50, 0)));
        fresh.enabledCia402(1);
        fresh.write("positionWindow", window);
        fresh.write("positionWindowTime", time);
        fresh.write("targetPosition", TURN);
        fresh.write("control", 0x1F);
        int milliseconds = 0;
        while ((fresh.status() & 0x0400) == 0 && milliseconds < 10_000) {
            fresh.pass(1);
            milliseconds++;
        }
        return milliseconds;
    }
}
