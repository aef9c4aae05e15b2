package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** The direct style is the invention of the drive descriptions here; no outside source. */
class DirectFirmwareTest {

    private static final int READY = 1;
    private static final int ENABLED = 2;
    private static final int FAULT = 4;
    private static final int MOVING = 8;
    private static final int IN_POSITION = 16;

    private final Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis());

    @Test
    void enableTakesAFewMilliseconds() {
        assertThat(bench.status()).isZero();
        bench.pass(20);
        assertThat(bench.status()).isEqualTo(READY);
        bench.write("command", 1);
        assertThat(bench.status() & ENABLED).isZero();
        bench.pass(20);
        assertThat(bench.status()).isEqualTo(READY | ENABLED | IN_POSITION);
    }

    @Test
    void motionIsRefusedWhenNotEnabled() {
        bench.pass(20);
        assertThat(bench.write("relativeMove", 1000)).isEqualTo(4);
        assertThat(bench.write("absoluteMove", 1000)).isEqualTo(4);
        assertThat(bench.write("speedCommand", 100)).isEqualTo(4);
        assertThat(bench.write("command", 99)).isEqualTo(4);
        bench.pass(1000);
        assertThat(bench.read("position")).isZero();
        assertThat(bench.drive.motionsStarted()).isZero();
    }

    @Test
    void aRepeatedWriteRepeatsTheMove() {
        bench.enabledDirect();
        bench.write("relativeMove", -5000);
        assertThat(bench.status() & (MOVING | IN_POSITION)).isEqualTo(MOVING);
        bench.pass(1000);
        assertThat(bench.status() & (MOVING | IN_POSITION)).isEqualTo(IN_POSITION);
        assertThat(bench.read("position")).isCloseTo(-5000, within(1.0));
        bench.write("relativeMove", -5000);
        bench.write("relativeMove", -5000);
        bench.pass(1000);
        assertThat(bench.read("position")).isCloseTo(-15_000, within(1.0));
        assertThat(bench.drive.motionsStarted()).isEqualTo(3);
        assertThat(bench.drive.writes(22)).isEqualTo(3);
    }

    @Test
    void absoluteMoveAndSpeedAndStop() {
        bench.enabledDirect();
        bench.write("absoluteMove", 20_000);
        bench.pass(1000);
        assertThat(bench.read("position")).isCloseTo(20_000, within(1.0));
        bench.write("speedCommand", 300);
        bench.pass(1000);
        assertThat(bench.read("speed")).isCloseTo(300, within(1.0));
        bench.write("command", 3);
        bench.pass(500);
        assertThat(bench.read("speed")).isZero();
        assertThat(bench.status()).isEqualTo(READY | ENABLED | IN_POSITION);
    }

    @Test
    void disableTakesTheTorqueAway() {
        bench.enabledDirect();
        bench.write("speedCommand", 300);
        bench.pass(1000);
        bench.write("command", 2);
        assertThat(bench.status() & ENABLED).isZero();
        assertThat(bench.read("torque")).isZero();
        bench.pass(5000);
        assertThat(bench.read("speed")).isZero();
    }

    @Test
    void aFaultStopsIsShownAndReset() {
        bench.enabledDirect();
        bench.write("speedCommand", 300);
        bench.pass(1000);
        bench.drive.trip(0x7305);
        assertThat(bench.status() & FAULT).isNotZero();
        bench.pass(1000);
        assertThat(bench.read("speed")).isZero();
        assertThat(bench.write("command", 1)).as("no enable in fault").isEqualTo(4);
        bench.write("command", 4);
        assertThat(bench.read("faultCode")).isZero();
        assertThat(bench.status()).isEqualTo(READY);
    }

    @Test
    void theAbsoluteTargetIsReachedAlongTheRegistersNumberLine() {
        SimulationSpec spec = InventedDrives.axis();
        long start = Integer.MAX_VALUE - 1000L;
        Bench near = new Bench(
                        InventedDrives.direct(),
                        new SimulationSpec(
                                spec.motor(),
                                spec.load(),
                                new SimulationSpec.Feedback(65_536, 1, 1, start),
                                spec.loops(),
                                spec.wire(),
                                1))
                .enabledDirect();
        near.write("relativeMove", 5000);
        near.pass(1000);
        // Two's complement: 2147482647 + 5000 = 2147487647 shows as −2147479649.
        assertThat(near.read("position")).isCloseTo(-2_147_479_649.0, within(1.0));
        near.write("absoluteMove", -2_147_480_649);
        near.pass(1000);
        assertThat(near.drive.shaftAngle() / (2 * Math.PI) * 65_536).isCloseTo(4000, within(1.0));
    }
}
