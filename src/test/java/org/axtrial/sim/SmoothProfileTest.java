package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Jerk-limited profiles. Counts stand for µm where a length is meant. */
class SmoothProfileTest {

    private static final double STEP = 125e-6;

    private final Profile profile = new Profile(STEP);
    private double fastest;
    private double hardest;
    private double worstJerk;

    private void step() {
        double acceleration = profile.acceleration();
        profile.step();
        fastest = Math.max(fastest, Math.abs(profile.speed()));
        hardest = Math.max(hardest, Math.abs(profile.acceleration()));
        worstJerk = Math.max(worstJerk, Math.abs(profile.acceleration() - acceleration) / STEP);
    }

    private double runToEnd() {
        long steps = 0;
        while (profile.running() && steps < 4_000_000) {
            step();
            steps++;
        }
        assertThat(profile.running()).isFalse();
        return steps * STEP;
    }

    private void run(double seconds) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            step();
        }
    }

    // T = S/v + v/a + a/j where v and a are reached. Source: known time of the seven-segment S-curve (from memory),
    // recomputed; counts stand for µm.
    @ParameterizedTest
    @CsvSource({"500000, 500000, 2500000, 50e6, 1.25", "1000000, 1000000, 5000000, 100e6, 1.25"})
    void sevenSegmentsTakeDistanceOverSpeedPlusSpeedOverAccelerationPlusAccelerationOverJerk(
            double s, double v, double a, double j, double expected) {
        profile.limitJerk(j);
        profile.move(s, v, a, a);
        assertThat(runToEnd()).isCloseTo(expected, within(1.01 * STEP));
        assertThat(profile.position()).isEqualTo(s);
        assertThat(fastest).isCloseTo(v, within(v * 1e-9));
        assertThat(hardest).isCloseTo(a, within(a * 1e-9));
    }

    @Test
    void jerkAloneTakesFourTimesTheCubeRootOfHalfTheDistanceOverJerk() {
        // S 0.25 m, j 125 m/s³ → T 0.4 s, v 1.25 m/s, a 12.5 m/s². Source as above.
        profile.limitJerk(125e6);
        profile.move(250_000, 10e6, 100e6, 100e6);
        assertThat(runToEnd()).isCloseTo(0.4, within(1.01 * STEP));
        assertThat(fastest).isCloseTo(1.25e6, within(125e6 * STEP * STEP));
        assertThat(hardest).isCloseTo(12.5e6, within(125e6 * STEP));
        assertThat(profile.position()).isEqualTo(250_000);
    }

    @Test
    void speedIsReachedInSpeedOverAccelerationPlusAccelerationOverJerk() {
        // v 0.5 m/s, a 2.5 m/s², j 50 m/s³: 0.2 + 0.05 s; half the speed at half the time, by symmetry.
        profile.limitJerk(50e6);
        profile.keepSpeed(5e5, 2.5e6, 2.5e6);
        run(0.125);
        assertThat(profile.speed()).isCloseTo(2.5e5, within(1e-3));
        run(0.125 - STEP);
        assertThat(profile.ramped()).isFalse();
        run(2 * STEP);
        assertThat(profile.ramped()).isTrue();
        assertThat(profile.speed()).isEqualTo(5e5);
        assertThat(profile.acceleration()).isZero();
    }

    @Test
    void aStopInTheMiddleOfTheRampEndsOnAWholeCount() {
        profile.limitJerk(50e6);
        profile.keepSpeed(5e5, 2.5e6, 2.5e6);
        run(0.1);
        profile.stop(2.5e6);
        runToEnd();
        assertThat(profile.position()).isEqualTo(Math.rint(profile.position())).isPositive();
        assertThat(profile.speed()).isZero();
        assertThat(worstJerk).isLessThanOrEqualTo(50e6 * (1 + 1e-6));
        assertThat(hardest).isLessThanOrEqualTo(2.5e6 * (1 + 1e-9));
    }

    @Test
    void aQuickStopDoesNotKeepToTheJerk() {
        profile.limitJerk(5e6);
        profile.keepSpeed(5e5, 2.5e6, 2.5e6);
        run(2);
        double from = profile.position();
        profile.stopAtOnce(2.5e6);
        // v/a and v²/2a.
        assertThat(runToEnd()).isCloseTo(0.2, within(2 * STEP));
        assertThat(profile.position() - from).isCloseTo(50_000, within(1.0));
    }

    /**
     * Any order, at any moment of any other: within speed, acceleration and jerk, without a jump, and exactly on the
     * target. A lower speed than the one under way is ramped down to, and what is left of an acceleration adds a²/2j.
     */
    @ParameterizedTest
    @ValueSource(longs = {402, 6086, 60})
    void noOrderLeavesTheLimitsNorJumps(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 100; i++) {
            Profile fresh = new Profile(STEP);
            double v = 1e4 + 1e6 * random.nextDouble();
            double a = 1e5 + 1e7 * random.nextDouble();
            double d = 1e5 + 1e7 * random.nextDouble();
            double j = 1e6 + 1e9 * random.nextDouble();
            double most = Math.max(a, d);
            fresh.limitJerk(j);
            for (int order = 0; order < 4; order++) {
                double target = Math.rint((random.nextDouble() - 0.5) * 2e6);
                boolean last = order == 3;
                if (last || random.nextInt(3) > 0) {
                    fresh.move(target, v * (0.1 + 0.9 * random.nextDouble()), a, d);
                } else if (random.nextBoolean()) {
                    fresh.keepSpeed((random.nextDouble() - 0.5) * 2 * v, a, d);
                } else {
                    fresh.stop(d);
                }
                Worst worst = worst(fresh, last ? Long.MAX_VALUE : random.nextInt(8000));
                String where = "case " + i + ", order " + order;
                assertThat(worst.speed).as(where).isLessThanOrEqualTo((v + most * most / (2 * j)) * 1.000001);
                assertThat(worst.acceleration).as(where).isLessThanOrEqualTo(most * 1.000001);
                assertThat(worst.change).as(where).isLessThanOrEqualTo(j * STEP * 1.000001 + 1e-3);
                // Between two samples of a constant jerk the way differs from the mean speed by at most j·h³/12; a
                // phase may end between.
                assertThat(worst.jump).as(where).isLessThanOrEqualTo(j * STEP * STEP * STEP + 1e-5);
                if (last) {
                    assertThat(fresh.position()).isEqualTo(target);
                    assertThat(fresh.speed()).isZero();
                }
            }
        }
    }

    /** The largest values of one order; jump is the difference of a step from its mean speed. */
    private record Worst(double speed, double acceleration, double change, double jump) {}

    private static Worst worst(Profile profile, long steps) {
        double speed = 0;
        double acceleration = 0;
        double change = 0;
        double jump = 0;
        for (long k = 0; k < steps && profile.running(); k++) {
            double from = profile.position();
            double speedBefore = profile.speed();
            double accelerationBefore = profile.acceleration();
            profile.step();
            speed = Math.max(speed, Math.abs(profile.speed()));
            acceleration = Math.max(acceleration, Math.abs(profile.acceleration()));
            change = Math.max(change, Math.abs(profile.acceleration() - accelerationBefore));
            double mean = 0.5 * (profile.speed() + speedBefore) * STEP;
            jump = Math.max(jump, Math.abs(profile.position() - from - mean));
        }
        return new Worst(speed, acceleration, change, jump);
    }
}
