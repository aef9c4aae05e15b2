package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProfileTest {

    private static final double STEP = 125e-6;

    private final Profile profile = new Profile(STEP);
    private double fastest;

    /** Runs to the end and gives the time taken in s. */
    private double runToEnd() {
        long steps = 0;
        while (profile.running() && steps < 1_000_000) {
            profile.step();
            fastest = Math.max(fastest, Math.abs(profile.speed()));
            steps++;
        }
        return steps * STEP;
    }

    private void run(double seconds) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            profile.step();
        }
    }

    // T = S/v + v/a. Source: public engineering pages, recomputed. Counts stand for µm and for 1/1000 degree.
    @ParameterizedTest
    @CsvSource({
        "1000000, 1000000, 2000000, 1.5",
        "500000, 500000, 2500000, 1.2",
        "360000, 600000, 2000000, 0.9",
        "360000, 1800000, 18000000, 0.3"
    })
    void trapezoidTakesDistanceOverSpeedPlusSpeedOverAcceleration(double s, double v, double a, double expected) {
        profile.move(s, v, a, a);
        assertThat(runToEnd()).isCloseTo(expected, within(STEP));
        assertThat(profile.position()).isEqualTo(s);
        assertThat(fastest).isCloseTo(v, within(v * 1e-9));
    }

    @Test
    void triangleTakesTwiceTheRootOfDistanceOverAcceleration() {
        // S 0.1 m, a 5 m/s² → T 0.282843 s, v_pk 0.707107 m/s. Source: as above; counts stand for µm.
        profile.move(100_000, 10e6, 5e6, 5e6);
        assertThat(runToEnd()).isCloseTo(0.282843, within(STEP));
        assertThat(fastest).isCloseTo(707_107, within(5e6 * STEP));
        assertThat(profile.position()).isEqualTo(100_000);
    }

    @Test
    void aMovedSetPointIsReachedFromTheRunningMotion() {
        profile.move(1e6, 1e6, 2e6, 2e6);
        run(0.6);
        double before = profile.speed();
        profile.move(-3e5, 1e6, 2e6, 2e6);
        profile.step();
        assertThat(profile.speed()).isCloseTo(before, within(2e6 * STEP * 1.01));
        runToEnd();
        assertThat(profile.position()).isEqualTo(-3e5);
    }

    @Test
    void aSetPointTooCloseToStopAtIsOvershotAndReachedBackwards() {
        profile.move(1e6, 1e6, 2e6, 2e6);
        run(0.6);
        double here = profile.position();
        profile.move(Math.rint(here + 1000), 1e6, 2e6, 2e6);
        double highest = 0;
        while (profile.running()) {
            profile.step();
            highest = Math.max(highest, profile.position());
        }
        // Braking distance v²/2a = 0.25e6 counts (v 1e6, a 2e6).
        assertThat(highest).isCloseTo(here + 250_000, within(500.0));
        assertThat(profile.position()).isEqualTo(Math.rint(here + 1000));
    }

    @Test
    void aLowerTopSpeedIsRampedDownTo() {
        profile.move(1e6, 1e6, 2e6, 2e6);
        run(0.6);
        profile.move(1e6, 2e5, 2e6, 4e6);
        run(0.3);
        assertThat(profile.speed()).isCloseTo(2e5, within(1e-3));
        runToEnd();
        assertThat(profile.position()).isEqualTo(1e6);
    }

    @Test
    void speedIsRampedAndThenKept() {
        profile.keepSpeed(5e5, 1e6, 2e6);
        run(0.25);
        assertThat(profile.speed()).isCloseTo(2.5e5, within(1e-6));
        assertThat(profile.ramped()).isFalse();
        run(1.0);
        assertThat(profile.speed()).isCloseTo(5e5, within(1e-9));
        assertThat(profile.ramped()).isTrue();
        assertThat(profile.target()).isNaN();
        // Reversal: down with 2e6 in 0.25 s, up with 1e6 in 0.5 s.
        profile.keepSpeed(-5e5, 1e6, 2e6);
        run(0.5);
        assertThat(profile.speed()).isCloseTo(-2.5e5, within(1e-6));
    }

    @Test
    void aStopRampsDownAndRestsOnAWholeCount() {
        profile.keepSpeed(123_456.7, 1e6, 1e6);
        run(1.0);
        double at = profile.position();
        profile.stop(2e6);
        double took = runToEnd();
        assertThat(profile.speed()).isZero();
        assertThat(profile.position()).isEqualTo(Math.rint(profile.position()));
        // v²/2a and v/a; the ramp is bent by less than one count.
        assertThat(profile.position() - at).isCloseTo(123_456.7 * 123_456.7 / 4e6, within(1.0));
        assertThat(took).isCloseTo(123_456.7 / 2e6, within(2 * STEP));
    }

    @Test
    void aMoveOfNothingEndsAtOnce() {
        profile.move(0, 1e6, 1e6, 1e6);
        profile.step();
        assertThat(profile.running()).isFalse();
        assertThat(profile.position()).isZero();
    }
}
