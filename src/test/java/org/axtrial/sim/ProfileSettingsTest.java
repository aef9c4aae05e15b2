package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Motion profile type 6086h and profile jerk 60A4h of CiA 402, by the register. */
class ProfileSettingsTest {

    private static final double TURN = InventedDrives.COUNTS;

    /** Seconds until the demand stands on the target of a move of 5 revolutions with 10 rev/s and 50 rev/s². */
    private static double timeOfMove(Bench bench, double deceleration) {
        bench.write("profileSpeed", 600);
        bench.write("profileAcceleration", 3000);
        bench.write("profileDeceleration", deceleration);
        bench.write("targetPosition", 5 * TURN);
        bench.write("control", 0x1F);
        long from = bench.drive.nanos();
        while (bench.read("demandPosition") != 5 * TURN && bench.drive.nanos() - from < 5_000_000_000L) {
            bench.pass(0.125);
        }
        return (bench.drive.nanos() - from) * 1e-9;
    }

    private static Bench enabled(OptionalDouble jerk) {
        SimulationSpec.Reference none = SimulationSpec.Reference.NONE;
        Bench bench = new Bench(
                InventedDrives.wholeCia402(),
                InventedDrives.axis()
                        .with(new SimulationSpec.Reference(
                                none.negativeLimit(),
                                none.positiveLimit(),
                                none.home(),
                                none.indexOffset(),
                                none.absolute(),
                                none.longestSearch(),
                                jerk)));
        return bench.enabledCia402(1);
    }

    // T = S/v + v/a: 0.5 + 0.2 s; the jerk of 1000 rev/s³ adds a/j = 0.05 s. Source: known times of trapezoid and
    // S-curve
    // (from memory). The register shows whole counts, which the demand of an S-curve reaches up to ∛(6/j) early.
    @ParameterizedTest
    @CsvSource({"0, 0.7, 0.001", "2, 0.75, 0.004", "3, 0.75, 0.004"})
    void theProfileTypeAddsTheTimeOfTheJerk(int type, double expected, double early) {
        Bench bench = enabled(OptionalDouble.empty());
        assertThat(bench.write("profileType", type)).isEqualTo(Bench.OK);
        assertThat(bench.write("profileJerk", 1000)).isEqualTo(Bench.OK);
        assertThat(timeOfMove(bench, 3000)).isBetween(expected - early, expected + 0.001);
    }

    @Test
    void accelerationAndDecelerationCountEachForItself() {
        // S/v + v/2a + v/2d with d = 100 rev/s².
        assertThat(timeOfMove(enabled(OptionalDouble.empty()), 6000)).isCloseTo(0.65, within(0.001));
    }

    @Test
    void theSimulationSaysHowTheDriveStarts() {
        Bench bench = enabled(OptionalDouble.of(1000));
        assertThat(bench.read("profileType")).isEqualTo(3);
        assertThat(bench.read("profileJerk")).isEqualTo(1000);
        assertThat(timeOfMove(bench, 3000)).isCloseTo(0.75, within(0.004));
        assertThat(enabled(OptionalDouble.empty()).read("profileType")).isZero();
    }

    @Test
    void typesThatAreNotSimulatedAreRefused() {
        Bench bench = enabled(OptionalDouble.empty());
        for (int type : new int[] {-1, 1, 4}) {
            assertThat(bench.write("profileType", type)).as("type %s", type).isEqualTo(4);
        }
        assertThat(bench.write("profileJerk", 0)).isEqualTo(4);
    }

    @Test
    void aJerkLimitedMoveExcitesTheAxisLess() {
        // The step of acceleration of a trapezoid is a step of torque; the S-curve spreads it over a/j = 50 ms, and
        // what
        // is left within 2 ms is the way from no torque to friction.
        assertThat(steepestTorque(3)).isLessThan(0.5 * steepestTorque(0));
    }

    private static double steepestTorque(int type) {
        Bench bench = enabled(OptionalDouble.empty());
        bench.write("profileType", type);
        bench.write("profileJerk", 1000);
        bench.write("profileSpeed", 600);
        bench.write("profileAcceleration", 3000);
        bench.write("targetPosition", 5 * TURN);
        bench.write("control", 0x1F);
        double steepest = 0;
        for (int i = 0; i < 150; i++) {
            double before = bench.drive.torque();
            bench.pass(2);
            steepest = Math.max(steepest, Math.abs(bench.drive.torque() - before));
        }
        return steepest;
    }
}
