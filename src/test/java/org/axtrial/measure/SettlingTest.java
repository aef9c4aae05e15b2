package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SettlingTest {

    private static final Sampled TEN_MS = Sampled.every(0.01);

    @Test
    void liesInTheMiddleOfTheEntryInterval() {
        Measurement settling = Settling.of(TEN_MS.values(-0.01, 0, 0, 5, 9, 12, 10.5, 10, 10, 10, 10), X, 10, 0.5);
        assertThat(settling.value()).isCloseTo(0.035, within(1e-12));
        assertThat(settling.unit()).isEqualTo(Unit.SECOND);
        assertThat(settling.resolution()).isCloseTo(0.01, within(1e-12));
        assertThat(settling.samplePeriod().orElseThrow()).isCloseTo(0.01, within(1e-12));
        assertThat(settling.bound()).isEqualTo(Measurement.Bound.EXACT);
        assertThat(settling.marks()).extracting(Mark::label).containsExactly("last outside", "settled");
        assertThat(settling.marks()).extracting(Mark::seconds).containsExactly(0.03, 0.04);
    }

    @Test
    void theBudgetHoldsHalfTheIntervalAndTheRoundTrips() {
        Measurement settling = Settling.of(TEN_MS.roundTrip(0.004).values(0, 0, 5, 10, 10, 10, 10, 10), X, 10, 0.5);
        // Source: JCGM 100:2008, 4.3.7, rectangular a/√3 with a = 5 ms, a = 2 ms for the command, and √½ of it for
        // each of the two samples.
        assertThat(settling.budget().contributions())
                .extracting(Contribution::standardUncertainty)
                .satisfiesExactly(
                        u -> assertThat(u).isCloseTo(0.005 / Math.sqrt(3), within(1e-12)),
                        u -> assertThat(u).isCloseTo(0.002 / Math.sqrt(6), within(1e-12)),
                        u -> assertThat(u).isCloseTo(0.002 / Math.sqrt(6), within(1e-12)),
                        u -> assertThat(u).isCloseTo(0.002 / Math.sqrt(3), within(1e-12)));
    }

    @Test
    void coarseCountsAddAnUncertaintyOfTheEntry() {
        // The position enters with 4 per 10 ms and steps of 1: half a step is 1.25 ms.
        Trace trace = TEN_MS.quantum(1).values(0, 0, 4, 8, 12, 12, 12, 12, 12);
        Measurement settling = Settling.of(trace, X, 12, 1);
        assertThat(settling.budget().contributions()).anySatisfy(c -> {
            assertThat(c.name()).isEqualTo("quantisation at the edge of the window");
            assertThat(c.standardUncertainty()).isCloseTo(0.00125 / Math.sqrt(3), within(1e-12));
        });
    }

    @Test
    void theEdgeBelongsToTheWindow() {
        // Steps of 0.1 do not add up to 0.3 in binary arithmetic; a sample on the edge is inside all the same.
        Trace trace = TEN_MS.quantum(0.1).values(0, 0, 0.7, 0.1 + 0.2 + 1, 1.3, 1.3, 1.3, 1.3);
        assertThat(Settling.of(trace, X, 1, 0.3).value()).isCloseTo(0.005, within(1e-12));
    }

    @Test
    void aLateExcursionStartsAgain() {
        Trace trace = TEN_MS.values(0, 0, 10, 10, 10, 10, 10, 11, 10, 10, 10, 10, 10);
        assertThat(Settling.of(trace, X, 10, 0.5).value()).isCloseTo(0.065, within(1e-12));
    }

    @Test
    void notSettledAtTheEndIsOnlyALowerBound() {
        Measurement settling = Settling.of(TEN_MS.values(0, 0, 10, 10, 10, 10, 10, 10, 11), X, 10, 0.5);
        assertThat(settling.bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(settling.value()).isCloseTo(0.07, within(1e-12));
    }

    @Test
    void fourSamplesInsideDoNotProveThatItStays() {
        Measurement four = Settling.of(TEN_MS.values(0, 0, 0, 10, 10, 10, 10), X, 10, 0.5);
        assertThat(four.bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(four.value()).isCloseTo(0.01, within(1e-12));
        Measurement five = Settling.of(TEN_MS.values(0, 0, 0, 10, 10, 10, 10, 10), X, 10, 0.5);
        assertThat(five.bound()).isEqualTo(Measurement.Bound.EXACT);
    }

    @Test
    void insideAtTheFirstSampleIsOnlyAnUpperBound() {
        Measurement settling = Settling.of(TEN_MS.values(-0.005, 0, 10, 10, 10, 10, 10), X, 10, 0.5);
        assertThat(settling.bound()).isEqualTo(Measurement.Bound.AT_MOST);
        assertThat(settling.value()).isCloseTo(0.005, within(1e-12));
    }

    @Test
    void tooFewSamplesGiveNoValueButAReason() {
        assertThat(Settling.of(TEN_MS.values(0, 10, 10), X, 10, 0.5).missing().orElseThrow())
                .contains("record holds 2 of the 5 samples")
                .contains("record longer");
        assertThat(Settling.of(TEN_MS.values(-1, 10, 10), X, 10, 0.5).missing().orElseThrow())
                .contains("no sample was taken after the command");
    }

    @Test
    void aWindowBelowHalfAStepIsNoWindow() {
        Measurement settling = Settling.of(TEN_MS.quantum(1).values(0, 0, 10, 10, 10, 10, 10), X, 10, 0.4);
        assertThat(settling.missing().orElseThrow()).contains("± 0.4°").contains("one step of the position, 1°");
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
    void aWindowIsPositiveAndFinite(double window) {
        assertThatThrownBy(() -> Settling.of(TEN_MS.values(0, 1), X, 1, window))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("the window must be")
                .hasMessageContaining(Double.toString(window));
    }

    @Test
    void aTargetThatIsNotFiniteIsRefused() {
        assertThatThrownBy(() -> Settling.of(TEN_MS.values(0, 1), X, Double.NaN, 1))
                .isInstanceOf(IllegalArgumentException.class);
    }

    // Entry between 30 and 40 ms; common practice: 0 when the axis is inside by the end of the profile.
    @ParameterizedTest
    @CsvSource({"0, 35, 5", "0.02, 15, 5", "0.032, 4, 4", "0.04, 0, 0", "0.1, 0, 0"})
    void countsFromTheEndOfTheProfile(double profileEnd, double milliseconds, double halfWidth) {
        Trace trace = TEN_MS.values(0, 0, 3, 6, 9, 10, 10, 10, 10, 10);
        Measurement settling = Settling.fromProfileEnd(trace, X, 10, 0.5, profileEnd);
        assertThat(settling.value() * 1e3).isCloseTo(milliseconds, within(1e-9));
        assertThat(settling.standardUncertainty() * 1e3).isCloseTo(halfWidth / Math.sqrt(3), within(1e-9));
        assertThat(settling.resolution()).isCloseTo(0.01, within(1e-12));
        assertThat(settling.marks()).extracting(Mark::label).contains("profile end");
    }

    @Test
    void aProfileThatEndsBeforeTheCommandIsRefused() {
        assertThatThrownBy(() -> Settling.fromProfileEnd(TEN_MS.values(0, 1), X, 1, 1, -0.1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("-0.1 s");
    }

    @Test
    void halfAStepIsTheNarrowestWindow() {
        assertThat(Settling.of(TEN_MS.quantum(1).values(0, 0, 10, 10, 10, 10, 10), X, 10, 0.5)
                        .value())
                .isCloseTo(0.005, within(1e-12));
    }

    // By hand: the last sample outside is that of 70 ms, the profile ends at 30 ms.
    @Test
    void aLowerBoundCountsFromTheEndOfTheProfileToo() {
        Trace trace = TEN_MS.values(0, 0, 10, 10, 10, 10, 10, 10, 11);
        Measurement settling = Settling.fromProfileEnd(trace, X, 10, 0.5, 0.03);
        assertThat(settling.bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(settling.value()).isCloseTo(0.04, within(1e-12));
        assertThat(Settling.fromProfileEnd(trace, X, 10, 0.5, 0.09).value()).isZero();
    }

    // By hand: first sample at 5 ms, inside: at most 3 ms after a profile of 2 ms, and exactly 0 from 5 ms on.
    @Test
    void anUpperBoundCountsFromTheEndOfTheProfileToo() {
        Trace trace = TEN_MS.values(0.005, 10, 10, 10, 10, 10);
        Measurement early = Settling.fromProfileEnd(trace, X, 10, 0.5, 0.002);
        assertThat(early.bound()).isEqualTo(Measurement.Bound.AT_MOST);
        assertThat(early.value()).isCloseTo(0.003, within(1e-12));
        Measurement late = Settling.fromProfileEnd(trace, X, 10, 0.5, 0.005);
        assertThat(late.bound()).isEqualTo(Measurement.Bound.EXACT);
        assertThat(late.value()).isZero();
    }

    @Test
    void theBudgetNamesTheTimesInMilliseconds() {
        assertThat(Settling.of(TEN_MS.roundTrip(0.004).values(0, 0, 5, 10, 10, 10, 10, 10), X, 10, 0.5)
                        .budget()
                        .contributions())
                .extracting(Contribution::how)
                .containsExactly(
                        "samples 10 ms apart",
                        "half a round trip is 2 ms",
                        "half a round trip is 2 ms",
                        "half a round trip is about 2 ms");
    }
}
