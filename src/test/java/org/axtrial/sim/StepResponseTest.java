package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.Optional;
import org.axtrial.plant.Friction;
import org.axtrial.plant.Plant;
import org.axtrial.plant.PlantSpec;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Step responses of the whole servo, with gains told directly. A frictionless inertia under P position and P speed
 * control is ωn²/(s² + 2ζωn·s + ωn²) with ωn² = Kv·Kp/J and ζ = ½·√(Kp/(J·Kv)).
 */
class StepResponseTest {

    private static final long COUNTS = 1 << 23;
    private static final double INERTIA = 5e-4;
    private static final double NATURAL = 40;

    private static SimulationSpec spec(double kv, double speedProportional, double speedIntegral) {
        return new SimulationSpec(
                new SimulationSpec.Motor(1000, 300, 3e-4, 100_000),
                new SimulationSpec.RotaryLoad(2e-4, 1, 0, 0, 0),
                new SimulationSpec.Feedback(COUNTS, 1, 1, 0),
                new SimulationSpec.Loops(
                        5000,
                        1000,
                        kv,
                        0,
                        20,
                        Duration.ofMillis(5),
                        1e12,
                        0,
                        Optional.of(new SimulationSpec.SpeedGains(speedProportional, speedIntegral))),
                InventedDrives.wire(),
                1);
    }

    // Source: OS = exp(−πζ/√(1−ζ²)), ωn·tp = π/√(1−ζ²), 0–100 % (π − arccos ζ)/√(1−ζ²), 10–90 % from published class
    // tables, settling to 2 % and 5 % from the exact response, recomputed. Bounds: sampling and torque lag delay by
    // about
    // 1.5·31 µs + 32 µs = 0.08 ms, which at ωn = 40/s takes at most 0.0032 off the damping: below 0.6 points of
    // overshoot
    // and, with the delay, 0.02/ωn in rise, 0.06/ωn in settling; the peak of a heavily damped response is flat and
    // found
    // to 0.05/ωn.
    @ParameterizedTest
    @CsvSource({
        "0.1, 72.9248, 3.1574, 1.1042, 1.6794, 38.383, 28.968",
        "0.2, 52.6621, 3.2064, 1.2034, 1.8087, 19.602, 13.745",
        "0.3, 37.2326, 3.2933, 1.3213, 1.9660, 11.230, 10.137",
        "0.4, 25.3827, 3.4278, 1.4635, 2.1629, 8.409, 7.609",
        "0.5, 16.3034, 3.6276, 1.6376, 2.4184, 8.076, 5.289",
        "0.6, 9.4780, 3.9270, 1.8541, 2.7679, 5.943, 5.229",
        "0.7, 4.5988, 4.3991, 2.1262, 3.2853, 5.979, 2.900",
        "0.8, 1.5165, 5.2360, 2.4675, 4.1635, 3.756, 3.385",
        "0.9, 0.1524, 7.2073, 2.8830, 6.1726, 4.700, 4.014"
    })
    void positionStepIsTheStandardSecondOrderForm(
            double damping,
            double overshoot,
            double peakTime,
            double rise,
            double riseToTarget,
            double settling2,
            double settling5) {
        double speedPole = 2 * damping * NATURAL;
        Servo servo = new Servo(spec(NATURAL / (2 * damping), INERTIA * speedPole, 0));
        servo.energise(1);
        double step = COUNTS / 8.0;
        // So fast a profile is over within one sample.
        servo.move(step, 1e15, 1e18, 1e18);
        double width = servo.stepNanos() * 1e-9;
        double highest = 0;
        double highestAt = 0;
        double tenAt = 0;
        double ninetyAt = 0;
        double targetAt = 0;
        double outside2 = 0;
        double outside5 = 0;
        for (int i = 1; i * width < 1.2; i++) {
            servo.step();
            double reached = servo.angle() * COUNTS / (2 * Math.PI) / step;
            tenAt = tenAt == 0 && reached >= 0.1 ? i * width : tenAt;
            ninetyAt = ninetyAt == 0 && reached >= 0.9 ? i * width : ninetyAt;
            targetAt = targetAt == 0 && reached >= 1 ? i * width : targetAt;
            outside2 = Math.abs(reached - 1) > 0.02 ? i * width : outside2;
            outside5 = Math.abs(reached - 1) > 0.05 ? i * width : outside5;
            if (reached > highest) {
                highest = reached;
                highestAt = i * width;
            }
        }
        assertThat(100 * (highest - 1)).isCloseTo(overshoot, within(0.6));
        assertThat(NATURAL * highestAt).isCloseTo(peakTime, within(0.05));
        assertThat(NATURAL * (ninetyAt - tenAt)).isCloseTo(rise, within(0.02));
        assertThat(NATURAL * outside2).isCloseTo(settling2, within(0.06));
        assertThat(NATURAL * outside5).isCloseTo(settling5, within(0.06));
        assertThat(NATURAL * targetAt).isCloseTo(riseToTarget, within(damping < 0.85 ? 0.02 : 0.1));
    }

    /**
     * PI speed control has a zero at −Ki/Kp: its step response is c + (2ζ/ωn)·c′ of the standard form c. Source: partial
     * fractions; 2ζωn = Kp/J, ωn² = Ki/J.
     */
    @ParameterizedTest
    @CsvSource({"0.2", "0.4", "0.5", "0.7", "0.9"})
    void speedStepUnderProportionalAndIntegralControlIsTheStandardFormWithAZero(double damping) {
        double natural = 100;
        double width = 31.25e-6;
        Plant plant = new Plant(PlantSpec.rigid(INERTIA, 0, Friction.of(0, 0), 0, 1), width);
        Cascade cascade = new Cascade(
                new Cascade.Gains(2 * damping * natural * INERTIA, natural * natural * INERTIA, 0, 1, 5000),
                1e9,
                width);
        double damped = natural * Math.sqrt(1 - damping * damping);
        for (int i = 1; i * width < 0.2; i++) {
            plant.step(cascade.step(0, 1, plant.motorSpeed(), 1e9), false);
            double t = i * width;
            double decay = Math.exp(-damping * natural * t);
            double c = 1 - decay * (Math.cos(damped * t) + damping * natural / damped * Math.sin(damped * t));
            double slope = decay * natural * natural / damped * Math.sin(damped * t);
            // The delay of 0.08 ms at the steepest slope, 2ζωn, and its effect on the damping.
            assertThat(plant.motorSpeed())
                    .isCloseTo(c + 2 * damping / natural * slope, within(0.08e-3 * natural * (1.5 + 2 * damping)));
        }
    }

    /** A demand with acceleration leaves an error behind unless inertia × acceleration is fed forward. */
    @Test
    void accelerationFeedForwardTakesTheFollowingErrorOutOfTheRamp() {
        // Speed P control only: torque J·α needs the speed error α/ω, so the position error is α/(ω·Kv) with speed
        // feed-forward, and nothing of it is left with full acceleration feed-forward. Source: final value of the loop.
        double kv = 50;
        double speedPole = 600;
        double alpha = 100 * 2 * Math.PI;
        double without = errorInRamp(kv, speedPole, 0, alpha);
        assertThat(without).isCloseTo(alpha / (speedPole * kv), within(0.02 * alpha / (speedPole * kv)));
        assertThat(errorInRamp(kv, speedPole, 0.5, alpha)).isCloseTo(0.5 * without, within(0.02 * without));
        assertThat(Math.abs(errorInRamp(kv, speedPole, 1, alpha))).isLessThan(0.02 * without);
    }

    private static double errorInRamp(double kv, double speedPole, double share, double alpha) {
        SimulationSpec plain = spec(kv, INERTIA * speedPole, 0);
        SimulationSpec.Loops loops = new SimulationSpec.Loops(
                5000,
                1000,
                kv,
                1,
                20,
                Duration.ofMillis(5),
                1e12,
                share,
                plain.loops().speedGains());
        Servo servo = new Servo(
                new SimulationSpec(plain.motor(), plain.load(), plain.feedback(), loops, plain.wire(), plain.seed()));
        servo.energise(1);
        double rate = alpha / servo.radiansPerCount();
        servo.keepSpeed(rate, rate, rate);
        while (servo.profile().speed() < 0.8 * rate) {
            servo.step();
        }
        // What the sampled position loop sees: the new demand and the position before it; averaged over 10 ms.
        double sum = 0;
        for (int i = 0; i < 320; i++) {
            double seen = servo.angle();
            servo.step();
            sum += servo.profile().position() * servo.radiansPerCount() - seen;
        }
        return sum / 320;
    }
}
