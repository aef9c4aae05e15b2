package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Homing of CiA 402 (IEC 61800-7-201): where each method ends, by geometry; statusword bits 13, 12 and 10 by the truth
 * table of the profile, from memory.
 */
class HomingTest {

    private static final double TURN = InventedDrives.COUNTS;
    private static final int HOMING_BITS = 0x3400;
    private static final int IN_PROGRESS = 0x0000;
    private static final int NOT_STARTED_OR_INTERRUPTED = 0x0400;
    private static final int ATTAINED = 0x1000;
    private static final int COMPLETED = 0x1400;
    private static final int ERROR_MOVING = 0x2000;
    private static final int ERROR_STANDING = 0x2400;

    private static Bench bench(SimulationSpec.Reference reference) {
        return new Bench(InventedDrives.wholeCia402(), InventedDrives.axis().with(reference));
    }

    private static SimulationSpec.Reference cams(double homeFrom, double homeTo) {
        return InventedDrives.reference(new SimulationSpec.SwitchRange(homeFrom, homeTo, 0.01));
    }

    private static int bits(Bench bench) {
        return bench.status() & HOMING_BITS;
    }

    /** A drive in homing mode at so many motor revolutions from its start. */
    private static Bench ready(SimulationSpec.Reference reference, double from, int method) {
        Bench bench = bench(reference);
        bench.drive.turnByHand(2 * Math.PI * from);
        bench.enabledCia402(6);
        assertThat(bench.read("modeDisplay")).isEqualTo(6);
        bench.write("homingSpeedSwitch", 150);
        bench.write("homingSpeedZero", 15);
        bench.write("homingAcceleration", 1500);
        assertThat(bench.write("homingMethod", method)).isEqualTo(Bench.OK);
        assertThat(bits(bench)).isEqualTo(NOT_STARTED_OR_INTERRUPTED);
        return bench;
    }

    /** Runs a homing to its end; gives the home position in motor revolutions from the start. */
    private static double home(Bench bench) {
        bench.write("control", 0x1F);
        assertThat(bits(bench)).isEqualTo(IN_PROGRESS);
        for (int i = 0; i < 60_000 && bits(bench) == IN_PROGRESS; i++) {
            bench.pass(1);
        }
        while (bits(bench) == ATTAINED) {
            bench.pass(1);
        }
        assertThat(bits(bench)).isEqualTo(COMPLETED);
        assertThat(bench.drive.referenced()).isTrue();
        // Home reads minus the offset: the register tells how far beyond it the axis came to rest.
        bench.pass(100);
        double beyond = bench.read("position") + bench.read("homeOffset");
        return bench.drive.shaftAngle() / (2 * Math.PI) - beyond / TURN;
    }

    // Limit switches at −5 and 5 revolutions, home cam −0.5 … 0.5, hysteresis 0.01, index marks at 0.3 + n. A switch
    // that
    // is entered trips at its end, one that is left 0.01 beyond. Where the home position must be follows from the
    // figures: the end of the switch, or the first index mark beyond it in the direction of the last motion.
    static Stream<Arguments> methods() {
        double lower = -0.5;
        double upper = 0.5;
        double out = 0.01;
        double up = Double.POSITIVE_INFINITY;
        double down = Double.NEGATIVE_INFINITY;
        return Stream.of(
                Arguments.of(17, lower, upper, -5 + out, -4.7),
                Arguments.of(18, lower, upper, 5 - out, 4.3),
                Arguments.of(19, lower, up, lower - out, -0.7),
                Arguments.of(20, lower, up, lower, 0.3),
                Arguments.of(21, down, upper, upper + out, 1.3),
                Arguments.of(22, down, upper, upper, 0.3),
                Arguments.of(23, lower, upper, lower - out, -0.7),
                Arguments.of(24, lower, upper, lower, 0.3),
                Arguments.of(25, lower, upper, upper, 0.3),
                Arguments.of(26, lower, upper, upper + out, 1.3),
                Arguments.of(27, lower, upper, upper + out, 1.3),
                Arguments.of(28, lower, upper, upper, 0.3),
                Arguments.of(29, lower, upper, lower, 0.3),
                Arguments.of(30, lower, upper, lower - out, -0.7));
    }

    @ParameterizedTest
    @MethodSource("methods")
    void everyMethodFindsItsEndOfItsSwitchFromWhereverItStarts(
            int withoutIndex, double camFrom, double camTo, double edge, double mark) {
        // 15 r/min for a sample of 125 µs: 2 counts. From both sides of the switch, on it, and on either limit switch.
        for (double from : new double[] {-5.2, -3, -0.2, 0.45, 2, 5.2}) {
            Bench plain = ready(cams(camFrom, camTo), from, withoutIndex);
            assertThat(home(plain)).as("method %s from %s", withoutIndex, from).isCloseTo(edge, within(3 / TURN));
            Bench indexed = ready(cams(camFrom, camTo), from, withoutIndex - 16);
            assertThat(home(indexed))
                    .as("method %s from %s", withoutIndex - 16, from)
                    .isCloseTo(mark, within(1 / TURN));
        }
    }

    @ParameterizedTest
    @CsvSource({"33, 2.0, 1.3", "34, 2.0, 2.3", "33, -0.1, -0.7", "34, -0.1, 0.3"})
    void theIndexMarkAloneIsFoundInTheDirectionOfTheMethod(int method, double from, double mark) {
        assertThat(home(ready(InventedDrives.switches(), from, method))).isCloseTo(mark, within(1 / TURN));
    }

    @ParameterizedTest
    @ValueSource(ints = {35, 37})
    void thePresentPositionBecomesHomeWithoutMotion(int method) {
        Bench bench = ready(InventedDrives.switches(), 1.25, method);
        bench.write("homeOffset", -1000);
        double angle = bench.drive.shaftAngle();
        bench.write("control", 0x1F);
        bench.pass(20);
        assertThat(bits(bench)).isEqualTo(COMPLETED);
        assertThat(bench.drive.shaftAngle()).isCloseTo(angle, within(2 * Math.PI / TURN));
        assertThat(bench.read("position")).isCloseTo(1000, within(1.0));
    }

    @Test
    void absoluteTargetsCountFromTheNewZero() {
        // Zero lies home offset away from home: method 24 finds −0.5 revolutions, plus 10000 counts. Source: text of
        // object 607Ch in public object dictionaries.
        Bench bench = ready(InventedDrives.switches(), 2, 24);
        bench.write("homeOffset", 10_000);
        assertThat(home(bench)).isCloseTo(-0.5, within(3 / TURN));
        bench.write("control", 0x0F);
        assertThat(bits(bench)).as("stays completed").isEqualTo(COMPLETED);
        bench.write("mode", 1);
        bench.pass(5);
        bench.write("targetPosition", 0);
        bench.write("control", 0x1F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(0, within(1.0));
        assertThat(bench.drive.shaftAngle() / (2 * Math.PI)).isCloseTo(-0.5 + 10_000 / TURN, within(4 / TURN));
    }

    @Test
    void homeIsPassedAtTheSpeedForZeroAndTheSearchRunsAtTheSpeedForTheSwitch() {
        Bench bench = ready(InventedDrives.switches(), 3, 19);
        bench.write("homingMethod", 17);
        bench.write("control", 0x1F);
        bench.pass(500);
        assertThat(bench.read("speed")).isCloseTo(-150, within(2.0));
        double fastest = 0;
        while (bits(bench) == IN_PROGRESS) {
            fastest = bench.read("speed");
            bench.pass(1);
        }
        assertThat(fastest).isCloseTo(15, within(1.0));
    }

    @Test
    void repeatedHomingsAgreeWithinACount() {
        Bench bench = ready(InventedDrives.switches(), 2, 7);
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < 5; i++) {
            double found = home(bench);
            lowest = Math.min(lowest, found);
            highest = Math.max(highest, found);
            bench.write("control", 0x0F);
        }
        assertThat((highest - lowest) * TURN).isLessThanOrEqualTo(1.0 + 1e-6);
    }

    @Test
    void aHomingIsInterruptedByItsStartBitAndByHalt() {
        for (int word : new int[] {0x0F, 0x11F}) {
            Bench bench = ready(InventedDrives.switches(), 3, 17);
            bench.write("control", 0x1F);
            bench.pass(300);
            bench.write("control", word);
            assertThat(bits(bench)).as("ramping down").isEqualTo(IN_PROGRESS);
            bench.pass(500);
            assertThat(bits(bench)).isEqualTo(NOT_STARTED_OR_INTERRUPTED);
            assertThat(bench.read("speed")).isZero();
            assertThat(bench.drive.referenced()).isFalse();
            bench.write("control", 0x0F);
            bench.pass(2000);
            assertThat(bench.read("speed")).as("nothing goes on by itself").isZero();
            assertThat(home(bench)).isCloseTo(-4.99, within(3 / TURN));
        }
    }

    @Test
    void aHomePositionThatWasFoundIsNotLostByWhatIsOrderedWhileTheAxisComesToRest() {
        for (int word : new int[] {0x0F, 0x11F, 0x00}) {
            Bench bench = ready(InventedDrives.switches(), 2, 34);
            bench.write("homingAcceleration", 150);
            bench.write("control", 0x1F);
            while (bits(bench) == IN_PROGRESS) {
                bench.pass(1);
            }
            assertThat(bits(bench)).isEqualTo(ATTAINED);
            bench.write("control", word);
            bench.pass(1000);
            assertThat(bench.drive.referenced()).isTrue();
            double turns = bench.drive.shaftAngle() / (2 * Math.PI);
            assertThat(bench.read("position")).isCloseTo((turns - 2.3) * TURN, within(2.0));
        }
    }

    @Test
    void aSwitchThatNeverComesEndsInAnErrorAtTheSecondLimit() {
        Bench bench = ready(InventedDrives.switches(), 2, 23);
        bench.drive.switchBecomes(SwitchInput.HOME, SwitchCondition.STUCK_INACTIVE);
        bench.write("control", 0x1F);
        boolean sawMoving = false;
        for (int i = 0; i < 20_000 && bits(bench) != ERROR_STANDING; i++) {
            bench.pass(1);
            sawMoving |= bits(bench) == ERROR_MOVING;
        }
        assertThat(bits(bench)).isEqualTo(ERROR_STANDING);
        assertThat(sawMoving).isTrue();
        // The ramp down adds v²/2a = 0.125 revolutions.
        assertThat(bench.drive.shaftAngle() / (2 * Math.PI)).isCloseTo(-5.125, within(0.01));
        assertThat(bench.read("faultCode")).as("an error of homing is no fault").isZero();
        assertThat(bench.drive.referenced()).isFalse();
        bench.drive.switchBecomes(SwitchInput.HOME, SwitchCondition.WORKS);
        bench.write("control", 0x0F);
        assertThat(home(bench)).as("a new start is a new try").isCloseTo(-0.51, within(3 / TURN));
    }

    @Test
    void aSearchEndsAfterTheLongestWay() {
        SimulationSpec.Reference none = new SimulationSpec.Reference(
                Optional.empty(), Optional.empty(), Optional.empty(), 0, false, 3, OptionalDouble.empty());
        Bench bench = ready(none, 0, 17);
        bench.write("control", 0x1F);
        bench.pass(5000);
        assertThat(bits(bench)).isEqualTo(ERROR_STANDING);
        // The ramp down adds v²/2a: 2.5² / (2 · 25) = 0.125 revolutions.
        assertThat(bench.drive.shaftAngle() / (2 * Math.PI)).isCloseTo(-3.125, within(0.01));
    }

    @ParameterizedTest
    @ValueSource(ints = {23, 25, 28, 30})
    void aJerkLimitThatLetsTheAxisRunFarBeyondFindsTheSamePlace(int method) {
        // With 20 rev/s³ a stop from 2.5 rev/s takes more way than the home switch is wide.
        Bench bench = ready(cams(-0.1, 0.1), 2, method);
        bench.write("profileType", 3);
        bench.write("profileJerk", 20);
        double edge = method == 23 || method == 30 ? -0.11 : 0.1;
        assertThat(home(bench)).isCloseTo(edge, within(3 / TURN));
    }

    @Test
    void anIndexMarkThatNeverComesEndsInAnErrorAfterTwoRevolutions() {
        Bench bench = ready(InventedDrives.switches(), 0, 34);
        bench.drive.indexMarkBecomes(false);
        bench.write("homingSpeedZero", 60);
        bench.write("control", 0x1F);
        bench.pass(5000);
        assertThat(bits(bench)).isEqualTo(ERROR_STANDING);
        // The ramp down adds v²/2a: 1² / (2 · 25) = 0.02 revolutions.
        assertThat(bench.drive.shaftAngle() / (2 * Math.PI)).isCloseTo(2.02, within(0.01));
    }

    @Test
    void withoutAMethodAStartIsAnErrorAndUnknownMethodsAreRefused() {
        Bench bench = ready(InventedDrives.switches(), 0, 0);
        bench.write("control", 0x1F);
        assertThat(bits(bench)).isEqualTo(ERROR_STANDING);
        for (int unknown : new int[] {-1, 15, 16, 31, 32, 36, 38}) {
            assertThat(bench.write("homingMethod", unknown))
                    .as("method %s", unknown)
                    .isEqualTo(4);
        }
    }
}
