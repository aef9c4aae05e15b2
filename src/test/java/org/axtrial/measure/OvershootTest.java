package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

class OvershootTest {

    private static final Sampled TEN_MS = Sampled.every(0.01);

    @Test
    void countsInTheDirectionOfTravel() {
        Trace up = TEN_MS.values(0, 0, 5, 11, 10.5, 9.5, 10, 10);
        assertThat(Overshoot.of(up, X, 0, 10).value()).isEqualTo(1);
        Trace down = TEN_MS.values(0, 0, -5, -11, -10.5, -9.5, -10, -10);
        assertThat(Overshoot.of(down, X, 0, -10).value()).isEqualTo(1);
        assertThat(Overshoot.of(down, X, 0, -10).marks().get(0).seconds()).isEqualTo(0.02);
    }

    @Test
    void anAxisThatFallsShortDoesNotOvershoot() {
        Measurement overshoot = Overshoot.of(TEN_MS.values(0, 0, 5, 9, 9, 9, 9), X, 0, 10);
        assertThat(overshoot.value()).isZero();
        assertThat(overshoot.marks()).isEmpty();
    }

    @Test
    void aPeakThatStillGrowsAtTheEndIsALowerBound() {
        Measurement overshoot = Overshoot.of(TEN_MS.values(0, 0, 5, 11, 12), X, 0, 10);
        assertThat(overshoot.bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(overshoot.value()).isEqualTo(2);
    }

    // Source: constructed; 10 m/s² at 20 ms. A maximum may be missed by up to a·P²/2 = 2 mm when nothing is known of
    // where the samples lie; a·P²/8 = 0.5 mm is the error bound of linear interpolation between neighbours.
    @Test
    void thePeakBetweenSamplesIsEstimatedFromTheAcceleration() {
        Trace trace = Sampled.every(0.02).of(0, 0.4, t -> 0.1 - 5 * (t - 0.21) * (t - 0.21));
        Measurement overshoot = Overshoot.of(trace, X, -1, 0);
        Contribution hidden = overshoot.budget().contributions().get(0);
        assertThat(hidden.name()).isEqualTo("peak between samples");
        assertThat(hidden.standardUncertainty() * 2).isCloseTo(0.0005, within(1e-9));
        assertThat(0.1 - overshoot.value()).isCloseTo(0.0005, within(1e-9));
    }

    @Property
    void aParabolicPeakNeverHidesMoreThanTheBudgetSays(
            @ForAll @DoubleRange(min = 0.1, max = 0.3) @Scale(12) double peakTime,
            @ForAll @DoubleRange(min = 0.1, max = 100) @Scale(12) double acceleration) {
        double height = 1;
        Trace trace = Sampled.every(0.02).of(0, 0.4, t -> height - acceleration / 2 * (t - peakTime) * (t - peakTime));
        Measurement overshoot = Overshoot.of(trace, X, -10, 0);
        double bound = acceleration * 0.02 * 0.02 / 8;
        assertThat(overshoot.value()).isBetween(height - bound - 1e-9, height);
        assertThat(overshoot.standardUncertainty()).isCloseTo(bound / 2, within(1e-6 * acceleration));
    }

    @Test
    void withoutADirectionThereIsNoOvershoot() {
        assertThat(Overshoot.of(TEN_MS.values(0, 1, 1), X, 5, 5).missing().orElseThrow())
                .contains("no direction");
        assertThat(Overshoot.of(TEN_MS.values(-1, 1, 1), X, 0, 5).missing().orElseThrow())
                .contains("no sample");
        assertThatThrownBy(() -> Overshoot.of(TEN_MS.values(0, 1), X, 0, Double.NaN))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void theFirstOfTwoEqualPeaksIsMarked() {
        assertThat(Overshoot.of(TEN_MS.values(0, 0, 5, 11, 10, 11, 10), X, 0, 10)
                        .marks()
                        .get(0)
                        .seconds())
                .isEqualTo(0.02);
    }

    // By hand: 8, 9.8, 8 at 20 ms has the second difference −3.6, of which an eighth may hide: 10.25 at most is 0.25
    // over,
    // so that 0.25 of the 0.45 can be in the value. 9, 9.2, 9 hides 0.05 and cannot reach the target.
    @Test
    void aPeakShortOfTheTargetHidesOnlyWhatReachesBeyondIt() {
        Measurement close = Overshoot.of(Sampled.every(0.02).values(0, 8, 9.8, 8), X, 0, 10);
        assertThat(close.value()).isZero();
        assertThat(close.standardUncertainty()).isCloseTo(0.25 / 2, within(1e-9));
        assertThat(Overshoot.of(Sampled.every(0.02).values(0, 9, 9.2, 9), X, 0, 10)
                        .standardUncertainty())
                .isZero();
    }
}
