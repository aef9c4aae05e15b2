package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Profile torque, mode 4 of CiA 402: objects 6071h, 6072h, 6087h. Motor of 2.4 N·m, 3000 r/min. */
class ProfileTorqueTest {

    private final Bench bench = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis());

    @Test
    void theDemandFollowsTheSlopeToTheTarget() {
        bench.enabledCia402(4);
        assertThat(bench.read("modeDisplay")).isEqualTo(4);
        bench.write("torqueSlope", 1000);
        bench.write("targetTorque", 200);
        bench.pass(100);
        // 1000 ‰/s for 0.1 s.
        assertThat(bench.read("torque")).isCloseTo(100, within(2.0));
        assertThat(bench.status() & 0x0400).isZero();
        bench.pass(110);
        assertThat(bench.read("torque")).isCloseTo(200, within(2.0));
        assertThat(bench.status() & 0x0400).as("target torque reached").isNotZero();
    }

    @Test
    void torqueAcceleratesByNewtonAndStopsAtTheHighestSpeed() {
        bench.enabledCia402(4);
        bench.write("torqueSlope", 1_000_000);
        bench.write("targetTorque", 100);
        bench.pass(5);
        double before = bench.drive.shaftSpeed();
        bench.pass(100);
        // (0.24 − 0.05 − 1e-3 · ω̄) / 5e-4 over 0.1 s. Newton's second law.
        double mean = (before + bench.drive.shaftSpeed()) / 2;
        double expected = (0.24 - 0.05 - 1e-3 * mean) / 5e-4 * 0.1;
        assertThat(bench.drive.shaftSpeed() - before).isCloseTo(expected, within(0.02 * expected));
        bench.write("targetTorque", 1000);
        bench.pass(3000);
        assertThat(bench.read("speed")).isLessThanOrEqualTo(3010).isGreaterThan(2900);
        assertThat(bench.read("faultCode")).isZero();
    }

    @Test
    void maxTorqueLimitsTheTarget() {
        bench.enabledCia402(4);
        bench.write("torqueLimit", 100);
        bench.write("torqueSlope", 1_000_000);
        bench.write("targetTorque", -300);
        bench.pass(20);
        assertThat(bench.read("torque")).isCloseTo(-100, within(1.0));
        assertThat(bench.status() & 0x0800).as("internal limit").isNotZero();
    }

    @Test
    void haltBrakesAndHoldsAndItsEndGoesOn() {
        bench.enabledCia402(4);
        bench.write("torqueSlope", 10_000);
        bench.write("targetTorque", 100);
        bench.pass(300);
        assertThat(bench.read("speed")).isGreaterThan(300);
        bench.write("control", 0x10F);
        bench.pass(1000);
        assertThat(bench.read("speed")).isZero();
        assertThat(bench.status() & 0x0400).as("velocity zero").isNotZero();
        double rest = bench.read("position");
        bench.pass(1000);
        assertThat(bench.read("position")).isEqualTo(rest);
        bench.write("control", 0x0F);
        bench.pass(300);
        assertThat(bench.read("speed")).isGreaterThan(300);
    }

    @Test
    void aChangeOfModeTakesTheShaftOverWithoutAJerkOfTheDemand() {
        bench.enabledCia402(4);
        bench.write("profileAcceleration", 3000);
        bench.write("torqueSlope", 10_000);
        bench.write("targetTorque", 100);
        bench.pass(400);
        double speed = bench.read("speed");
        bench.write("mode", 3);
        bench.pass(1);
        assertThat(bench.read("speed")).isCloseTo(speed, within(30.0));
        bench.pass(2000);
        assertThat(bench.read("speed")).isZero();
        assertThat(bench.cia402State()).isEqualTo("enabled");
    }

    @Test
    void aLimitSwitchBrakesTheShaftAndTorqueAwayFromItMovesIt() {
        Bench axis =
                new Bench(InventedDrives.wholeCia402(), InventedDrives.axis().with(InventedDrives.switches()));
        axis.enabledCia402(4);
        axis.write("quickStopDeceleration", 15_000);
        axis.write("torqueSlope", 10_000);
        axis.write("targetTorque", 60);
        axis.pass(4000);
        assertThat(axis.read("speed")).isZero();
        assertThat(axis.read("digitalInputs")).isEqualTo(0b010);
        double stopped = axis.drive.shaftAngle();
        axis.pass(1000);
        assertThat(axis.drive.shaftAngle()).isCloseTo(stopped, within(0.001));
        axis.write("targetTorque", -60);
        axis.pass(500);
        assertThat(axis.read("speed")).isNegative();
    }

    @Test
    void modesThatNeedAnUndeclaredObjectAreRefused() {
        Bench plain = new Bench(InventedDrives.cia402(), InventedDrives.axis());
        assertThat(plain.write("mode", 4)).isEqualTo(4);
        assertThat(plain.write("mode", 6)).isEqualTo(4);
        assertThat(bench.write("mode", 4)).isEqualTo(Bench.OK);
        assertThat(bench.write("mode", 6)).isEqualTo(Bench.OK);
        // 6502h: bit n − 1 for mode n; 1, 3, 4 and 6.
        assertThat(bench.read("supportedModes")).isEqualTo(0b10_1101);
    }
}
