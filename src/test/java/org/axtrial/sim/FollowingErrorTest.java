package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The following error of the position loop in use: one register count is 0.001 mm on a lead of 10 mm. */
class FollowingErrorTest {

    // e = v/Kv. Source: machine-tool definition of Kv (public lexicon page); numbers by arithmetic.
    @ParameterizedTest
    @CsvSource({"500, 50, 10", "100, 20, 5", "1000, 16.6667, 60"})
    void atConstantSpeedItIsSpeedOverKv(double millimetresPerSecond, double positionGain, double millimetres) {
        SimulationSpec plain = InventedDrives.axis();
        Servo servo = new Servo(new SimulationSpec(
                new SimulationSpec.Motor(2.4, 300, 3e-4, 7000),
                new SimulationSpec.LinearLoad(10, 0.010, 0, 1e-4, 0.02),
                new SimulationSpec.Feedback(10_000, 1, 1, 0),
                new SimulationSpec.Loops(1000, 100, positionGain, 0, 20, Duration.ofMillis(5), 1e6),
                plain.wire(),
                1));
        servo.energise(1e6);
        double speed = 1000 * millimetresPerSecond;
        servo.keepSpeed(speed, 5e6, 5e6);
        for (int i = 0; i < 16_000; i++) {
            servo.step();
        }
        // Error is demand − actual (60F4h); the sample under way is one step of travel.
        double error = servo.profile().position() - servo.counts();
        assertThat(error / 1000).isCloseTo(millimetres, within(millimetresPerSecond * 125e-6 + 0.001));
    }
}
