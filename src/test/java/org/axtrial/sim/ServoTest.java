package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ServoTest {

    private static final double COUNTS = InventedDrives.COUNTS;

    private static Servo servo(SimulationSpec spec) {
        Servo servo = new Servo(spec);
        servo.energise(100 * COUNTS);
        return servo;
    }

    private static void run(Servo servo, double seconds) {
        for (long i = 0; i < Math.round(seconds * 1e9 / servo.stepNanos()); i++) {
            servo.step();
        }
    }

    // e = (1 − f)·v/Kv. Source: machine-tool definition of Kv (public lexicon page); f by arithmetic.
    @ParameterizedTest
    @CsvSource({"50, 0", "20, 0", "50, 0.5", "50, 0.9", "50, 1"})
    void followingErrorAtConstantSpeedIsSpeedOverKv(double positionGain, double feedForward) {
        Servo servo = servo(InventedDrives.axis(InventedDrives.loops(positionGain, feedForward)));
        double speed = 10 * COUNTS;
        servo.keepSpeed(speed, 100 * COUNTS, 100 * COUNTS);
        run(servo, 2);
        // Averaged over 0.1 s, because whole counts and the sample under way make single values differ by up to one
        // step of travel.
        double sum = 0;
        int samples = 800;
        for (int i = 0; i < samples; i++) {
            servo.step();
            sum += servo.profile().position() - servo.counts();
        }
        double perStep = speed * servo.stepNanos() * 1e-9;
        assertThat(sum / samples).isCloseTo((1 - feedForward) * speed / positionGain, within(perStep + 1));
    }

    @Test
    void fiveThousandCountsAreTwentySevenPointFourSixSixDegrees() {
        Servo servo = servo(InventedDrives.axis());
        servo.move(5000, 5 * COUNTS, 50 * COUNTS, 50 * COUNTS);
        run(servo, 1);
        // Source: common practice, 5000 · 360°/65536 = 27.4658203125°; one count is 0.0055°.
        assertThat(Math.toDegrees(servo.angle())).isCloseTo(27.4658203125, within(0.0055));
        assertThat(servo.counts()).isEqualTo(5000);
        assertThat(servo.inPosition()).isTrue();
    }

    @Test
    void anElectronicGearChangesWhatACountIs() {
        SimulationSpec right = InventedDrives.axis();
        // 65536 encoder counts for 36000 register counts: one register count is 0.01°.
        SimulationSpec geared = new SimulationSpec(
                right.motor(),
                right.load(),
                new SimulationSpec.Feedback(65_536, 65_536, 36_000, 0),
                right.loops(),
                right.wire(),
                1);
        Servo servo = servo(geared);
        servo.move(9000, 36_000, 360_000, 360_000);
        run(servo, 2);
        assertThat(Math.toDegrees(servo.angle())).isCloseTo(90, within(0.01));
    }

    @Test
    void holdingAgainstGravityTakesTheTorqueOfTheHangingMass() {
        // T = F·L/2π; 100 N, 10 mm → 0.159155 N·m. Source: screw formula of public engineering pages.
        SimulationSpec.Load load = new SimulationSpec.LinearLoad(10, 0.010, -100, 1e-3, 0);
        Servo servo = servo(InventedDrives.axis(load));
        servo.move(COUNTS, COUNTS, 10 * COUNTS, 10 * COUNTS);
        run(servo, 3);
        assertThat(servo.torque()).isCloseTo(0.159155, within(1e-4));
        assertThat(servo.counts()).isCloseTo(COUNTS, within(1.0));
    }

    @Test
    void aHangingLoadDoesNotSagWhenItIsEnabledNorFallWhenItIsDisabled() {
        SimulationSpec.Load load = new SimulationSpec.LinearLoad(10, 0.010, -100, 1e-3, 0.02);
        Servo servo = new Servo(InventedDrives.axis(load));
        run(servo, 1);
        servo.energise(100 * COUNTS);
        run(servo, 1);
        servo.release();
        run(servo, 1);
        assertThat(servo.counts()).isZero();
    }

    @Test
    void accelerationTorqueIsInertiaTimesAccelerationAndFriction() {
        Servo servo = servo(InventedDrives.axis());
        double acceleration = 50 * COUNTS;
        servo.keepSpeed(40 * COUNTS, acceleration, acceleration);
        run(servo, 0.5);
        // J·α + T_C + B·ω with J 5e-4, α 50·2π, T_C 0.05, B 1e-3, ω 25·2π. Newton's second law.
        double expected = 5e-4 * 50 * 2 * Math.PI + 0.05 + 1e-3 * servo.speed();
        assertThat(servo.torque()).isCloseTo(expected, within(0.02));
    }

    @Test
    void torqueNeverExceedsTheLimit() {
        Servo servo = servo(InventedDrives.axis());
        servo.limitTorque(20);
        servo.keepSpeed(40 * COUNTS, 1000 * COUNTS, 1000 * COUNTS);
        double most = 0;
        for (int i = 0; i < 2000; i++) {
            servo.step();
            most = Math.max(most, Math.abs(servo.torque()));
        }
        assertThat(most).isLessThanOrEqualTo(0.2 * 2.4 + 1e-12).isGreaterThan(0.2 * 2.4 * 0.999);
        assertThat(servo.torqueLimited()).isTrue();
    }

    @Test
    void aLongMoveEndsOnItsCountAndRestsExactly() {
        Servo servo = servo(InventedDrives.axis());
        servo.move(10 * COUNTS, 20 * COUNTS, 100 * COUNTS, 100 * COUNTS);
        // T = S/v + v/a = 0.7 s.
        run(servo, 0.7 - 0.001);
        assertThat(servo.profile().running()).isTrue();
        run(servo, 0.002);
        assertThat(servo.profile().running()).isFalse();
        run(servo, 1);
        assertThat(servo.steady()).isTrue();
        assertThat(servo.counts()).isCloseTo(10 * COUNTS, within(1.0));
        double angle = servo.angle();
        run(servo, 10);
        assertThat(servo.angle()).isEqualTo(angle);
    }

    @Test
    void theStepIsTheWidestThatTheLoopsAllow() {
        assertThat(Servo.stepNanos(loops(1000, 100))).isEqualTo(125_000);
        assertThat(Servo.stepNanos(loops(2000, 100))).isEqualTo(62_500);
        assertThat(Servo.stepNanos(loops(2000, 1000))).isEqualTo(31_250);
        assertThatThrownBy(() -> Servo.stepNanos(loops(20_000, 100)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("20000.0");
    }

    private static SimulationSpec.Loops loops(double torqueBandwidth, double speedBandwidth) {
        return new SimulationSpec.Loops(torqueBandwidth, speedBandwidth, 50, 1, 10, Duration.ofMillis(1), 1e5);
    }
}
