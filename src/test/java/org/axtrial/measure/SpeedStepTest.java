package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Rise and overshoot against the closed forms of first- and second-order systems (textbook, from memory). */
class SpeedStepTest {

    private static final double PERIOD = 0.001;
    private static final double ORDERED = 120;

    private static Trace firstOrder(double ordered, double constant) {
        return Sampled.every(PERIOD).in(Unit.DEGREE_PER_SECOND).of(0, 1, t -> ordered * (1 - Math.exp(-t / constant)));
    }

    private static Trace secondOrder(double damping) {
        double natural = 50;
        double root = Math.sqrt(1 - damping * damping);
        return Sampled.every(PERIOD)
                .in(Unit.DEGREE_PER_SECOND)
                .of(
                        0,
                        1,
                        t -> ORDERED
                                * (1
                                        - Math.exp(-damping * natural * t)
                                                * (Math.cos(natural * root * t)
                                                        + damping / root * Math.sin(natural * root * t))));
    }

    // A first-order system rises from 10 % to 90 % in its time constant times ln 9.
    @ParameterizedTest
    @ValueSource(doubles = {ORDERED, -ORDERED})
    void riseOfAFirstOrderSystem(double ordered) {
        Measurement rise = SpeedStep.rise(firstOrder(ordered, 0.04), X, ordered);
        assertThat(rise.value()).isCloseTo(0.04 * Math.log(9), within(2e-5));
        assertThat(rise.unit()).isEqualTo(Unit.SECOND);
        assertThat(rise.marks()).extracting(Mark::label).containsExactly("10 %", "90 %");
        // Without steps and round trips only the bend between the samples is left, less than P²/τ at either end.
        assertThat(rise.standardUncertainty()).isBetween(1e-7, PERIOD * PERIOD / 0.04);
        assertThat(Math.abs(rise.value() - 0.04 * Math.log(9))).isLessThan(rise.expandedUncertainty());
    }

    @Test
    void aRiseBetweenTwoSamplesIsNoLongerThanTheirDistance() {
        Measurement rise = SpeedStep.rise(Sampled.every(0.02).values(0, 0, 5, 96, 100), X, 100);
        assertThat(rise.value()).isCloseTo(0.02, within(1e-12));
        assertThat(rise.bound()).isEqualTo(Measurement.Bound.AT_MOST);
        assertThat(rise.resolution()).isCloseTo(0.02, within(1e-12));
        assertThat(SpeedStep.rise(Sampled.every(0.02).values(0, 0, 5, 20, 96), X, 100)
                        .bound())
                .isEqualTo(Measurement.Bound.EXACT);
    }

    @Test
    void aSpeedThatNeverGetsToNinetyPercentHasNoRise() {
        assertThat(SpeedStep.rise(firstOrder(0.8 * ORDERED, 0.04), X, ORDERED).missing())
                .contains("the speed did not pass 10 % and 90 % of what was ordered");
    }

    // A second-order system overshoots by exp(-pi·d / sqrt(1 - d²)).
    @ParameterizedTest
    @ValueSource(doubles = {0.2, 0.45, 0.7})
    void overshootOfASecondOrderSystem(double damping) {
        double expected = 100 * Math.exp(-Math.PI * damping / Math.sqrt(1 - damping * damping));
        Measurement overshoot = SpeedStep.overshoot(secondOrder(damping), X, ORDERED, 1);
        assertThat(overshoot.value()).isCloseTo(expected, within(0.1));
        assertThat(overshoot.unit()).isEqualTo(Unit.PERCENT);
    }

    @Test
    void onlyThePartUpToTheGivenInstantIsLookedAt() {
        Trace trace = Sampled.every(PERIOD).in(Unit.DEGREE_PER_SECOND).of(0, 1, t -> t < 0.5 ? ORDERED : 2 * ORDERED);
        assertThat(SpeedStep.overshoot(trace, X, ORDERED, 0.4).value()).isZero();
        assertThat(SpeedStep.overshoot(trace, X, ORDERED, 1).value()).isCloseTo(100, within(1e-9));
    }
}
