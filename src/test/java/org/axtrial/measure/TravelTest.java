package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

class TravelTest {

    private static final Sampled TEN_MS = Sampled.every(0.01).quantum(0.1);

    @Test
    void isTheMeanAtRestMinusTheStart() {
        Trace trace = TEN_MS.values(-0.02, 2, 2, 2, 5, 9, 12, 12.1, 12, 12.1, 12, 12.1);
        Measurement travel = Travel.of(trace, X, 2);
        assertThat(travel.value()).isCloseTo(72.3 / 6 - 2, within(1e-12));
        assertThat(travel.unit()).isEqualTo(Unit.DEGREE);
        assertThat(travel.resolution()).isEqualTo(0.1);
        assertThat(travel.source()).isEqualTo(Source.DRIVE);
        assertThat(travel.budget().contributions())
                .extracting(Contribution::name)
                .containsExactly("quantisation at the start", "quantisation at the end", "repeatability at rest");
        // Source: JCGM 100:2008, F.2.2.1, u = 0.28868 of a step; 4.2.2, s of 12, 12.1 three times each, which are too
        // few
        // to know how they hang together.
        assertThat(travel.budget().contributions().get(0).standardUncertainty()).isCloseTo(0.0288675, within(1e-7));
        assertThat(travel.budget().contributions().get(2).standardUncertainty())
                .isCloseTo(Math.sqrt(6 * 0.05 * 0.05 / 5), within(1e-12));
        assertThat(travel.budget().contributions().get(2).degreesOfFreedom()).isEqualTo(5);
    }

    @Test
    void noiseBeforeTheCommandCounts() {
        Measurement travel = Travel.of(TEN_MS.values(-0.02, 2, 2.2, 2, 5, 9, 12, 12, 12, 12, 12), X, 2.1);
        assertThat(travel.budget().contributions())
                .extracting(Contribution::name)
                .contains("repeatability at the start");
    }

    @Test
    void anAxisThatStillMovesGivesItsLastSampleAndTheTimingCounts() {
        Trace trace = TEN_MS.roundTrip(0.004).of(0, 0.2, t -> 100 * t);
        Measurement travel = Travel.of(trace, X, 0);
        assertThat(travel.value()).isCloseTo(20, within(1e-9));
        assertThat(travel.budget().contributions()).anySatisfy(c -> {
            assertThat(c.name()).isEqualTo("instant of the last sample");
            assertThat(c.standardUncertainty()).isCloseTo(100 * 0.002 / Math.sqrt(3), within(1e-9));
        });
    }

    @Test
    void anAxisThatDidNotMoveAtAllTravelledNothing() {
        Measurement travel = Travel.of(TEN_MS.of(-0.1, 0.2, t -> 7), X, 7);
        assertThat(travel.value()).isCloseTo(0, within(1e-12));
    }

    @Test
    void withoutASampleAfterTheCommandThereIsNoValue() {
        assertThat(Travel.of(TEN_MS.values(-1, 1, 2), X, 0).missing().orElseThrow())
                .startsWith("no sample was taken after the command");
    }

    @Test
    void aStartThatIsNotFiniteIsRefused() {
        assertThatThrownBy(() -> Travel.of(TEN_MS.values(0, 1), X, Double.NaN))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the start position must be finite, got NaN");
    }

    // Source: arithmetic, 5000 × 360 / 65536 = 27.4658203125°.
    @Test
    void countsBecomeDegreesThroughTheScale() {
        AxisScale scale = AxisScale.rotary(65536);
        Sampled counts = TEN_MS.in(Unit.COUNT).quantum(1);
        Measurement travel = Travel.of(counts.values(0, 0, 3000, 5000, 5000, 5000, 5000, 5000), X, 0)
                .in(Unit.DEGREE, scale);
        assertThat(travel.value()).isEqualTo(27.4658203125);
        assertThat(travel.resolution()).isEqualTo(0.0054931640625);
        assertThat(travel.standardUncertainty()).isCloseTo(0.0054931640625 * Math.sqrt(2.0 / 12), within(1e-15));
    }

    // By hand: the axis moves on at 100°/s from a start at 5°; two samples before the command show its noise.
    @Test
    void aMovingAxisCountsFromItsStart() {
        Trace trace = Sampled.every(0.01).roundTrip(0.004).of(0, 0.2, t -> 5 + 100 * t);
        Measurement travel = Travel.of(trace, X, 5);
        assertThat(travel.value()).isCloseTo(20, within(1e-9));
        assertThat(travel.budget().contributions())
                .extracting(Contribution::how)
                .contains("the axis still moved; half the round trip is 2 ms");
    }

    @Test
    void oneSampleBeforeTheCommandShowsNoNoise() {
        assertThat(Travel.of(TEN_MS.values(-0.01, 2, 5, 12, 12, 12, 12, 12), X, 2)
                        .budget()
                        .contributions())
                .extracting(Contribution::name)
                .doesNotContain("repeatability at the start");
        assertThat(Travel.of(TEN_MS.values(-0.02, 2, 3, 5, 12, 12, 12, 12, 12), X, 2)
                        .budget()
                        .contributions())
                .extracting(Contribution::name)
                .contains("repeatability at the start");
    }
}
