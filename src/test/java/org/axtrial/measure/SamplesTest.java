package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class SamplesTest {

    private static double hidden(Trace trace, int k) {
        return Samples.hiddenBeyond(trace, trace.values(X), k);
    }

    // By hand, one second apart: second differences δ² of 0 0 0 0 8 0 0 0 are 8, −16, 8 at samples 3 to 5, and δ⁴ 8,
    // −32, 48, −32
    // at 2 to 5; an eighth of δ² − δ⁴·(1/12 + 1/8), but no less than δ² and no more than 1.25 of it, or near the ends
    // of the
    // largest δ² beside.
    @ParameterizedTest
    @CsvSource({"0, 0", "1, 0", "2, 0", "3, 1.25", "4, 2.5", "5, 1.25", "6, 1", "7, 0"})
    void theNeighboursOfThePeakTellWhatItHides(int peak, double hidden) {
        Trace trace = Sampled.every(1).values(0, 0, 0, 0, 0, 8, 0, 0, 0);
        assertThat(hidden(trace, peak)).isCloseTo(hidden, within(1e-12));
    }

    // By hand: of intervals of which one is more than twice another the series does not hold, so that δ² = 8 is all;
    // else 1.25 of it.
    @ParameterizedTest
    @CsvSource({"5.5, 1", "5, 1.25"})
    void unevenSamplesHaveNoSeries(double last, double hidden) {
        Trace trace = Sampled.every(1).points(0, 0, 1, 0, 2, 0, 3, 8, last, 8);
        assertThat(hidden(trace, 2)).isCloseTo(hidden, within(1e-12));
    }

    // By hand: between samples at −4 and 6 ms with x″ = 500 the line is off by ½ · 500 · 4 ms · 6 ms at time zero.
    @Test
    void whatHidesAtTimeZeroHangsOnTheDistancesFromIt() {
        Trace trace = Sampled.every(0.01).of(-0.044, 0.1, t -> 250 * t * t);
        assertThat(Samples.hiddenAtZero(trace, trace.values(X), 5)).isCloseTo(250 * 0.004 * 0.006, within(1e-9));
    }

    // Constructed: a wave seen 12 times in an oscillation, two samples equally far from its peak. What is hidden is
    // A·(1 − cos 15°).
    @Test
    void aRoundPeakHidesWhatIsSaidOfIt() {
        Trace trace = Sampled.every(1).of(0, 12, t -> Math.cos(2 * Math.PI * (t - 5.5) / 12));
        assertThat(hidden(trace, 5)).isCloseTo(1 - Math.cos(Math.PI / 12), within(0.001));
    }

    // By hand: a second difference of 8 is an eighth of it above; noise of 1 brings √6, an eighth of that is left out
    // in squares.
    @Test
    void bendsThatNoiseAloneShowsAreLeftOut() {
        Samples.Hidden hidden = new Samples.Hidden(1, 4);
        assertThat(hidden.without(1).above()).isCloseTo(Math.sqrt(1 - 6 / 64.0), within(1e-12));
        assertThat(hidden.without(1).unplaced()).isCloseTo(4 * Math.sqrt(1 - 6 / 64.0), within(1e-12));
        assertThat(hidden.without(0)).isEqualTo(hidden);
        assertThat(hidden.without(8 / Math.sqrt(6)).above()).isZero();
        assertThat(hidden.without(100).above()).isZero();
    }

    // By hand: −16 at the only neighbour that has two of its own.
    @Test
    void aPeakAtTheEndOfTheRecordHasOneNeighbour() {
        assertThat(hidden(Sampled.every(1).values(0, 0, 8, 0, 0), 0)).isCloseTo(2, within(1e-12));
        assertThat(hidden(Sampled.every(1).values(0, 0, 0, 8, 0), 3)).isCloseTo(2, within(1e-12));
        assertThat(hidden(Sampled.every(1).values(0, 0, 8), 1)).isZero();
    }

    // By hand: 0, 8, 0 at 0, 1 and 3 s: slopes 8 and −4, second derivative −12/1.5 = −8; the longer interval is 2 s.
    @Test
    void theLongerOfTheIntervalsCounts() {
        assertThat(hidden(Sampled.every(1).points(0, 0, 1, 8, 3, 0), 1)).isCloseTo(8 * 4 / 8.0, within(1e-12));
        assertThat(hidden(Sampled.every(1).points(0, 0, 2, 8, 3, 0), 1)).isCloseTo(8 * 4 / 8.0, within(1e-12));
    }

    @Test
    void twoSamplesOfOneInstantHaveNoCurvature() {
        assertThat(hidden(Sampled.every(1).points(0, 0, 1, 1, 1, 2, 2, 3), 1)).isZero();
        assertThat(hidden(Sampled.every(1).points(0, 0, 1, 1, 1, 2), 1)).isZero();
        assertThat(hidden(Sampled.every(1).points(0, 0, 0, 1, 1, 2), 1)).isZero();
    }

    // Source: JCGM 100:2008, 4.3.7: 2 ms at 100 per second, either way, over √3.
    @Test
    void theMomentOfTheCommandCountsWithTheSpeed() {
        Trace trace = Sampled.every(0.01).roundTrip(0.004).values(0, 1, 2, 3);
        for (double speed : new double[] {100, -100}) {
            Contribution moment = Samples.command(trace, speed);
            assertThat(moment.standardUncertainty()).isCloseTo(0.2 / Math.sqrt(3), within(1e-12));
            assertThat(moment.how()).isEqualTo("half a round trip is about 2 ms");
        }
        assertThat(Samples.commandHalfWidth(trace.between(5, 6))).isZero();
    }

    static Stream<BiConsumer<Double, Double>> aWindowThatIsTurnedRoundIsRefused() {
        Trace trace = Sampled.every(0.01).of(0, 1, t -> 100 + t);
        return Stream.of(
                Samples::requireWindow,
                (from, to) -> RippleFrequency.of(trace, X, from, to),
                (from, to) -> SpeedRipple.of(trace, X, from, to),
                (from, to) -> SpeedRipple.rms(trace, X, from, to),
                (from, to) -> SpeedDrift.of(trace, X, from, to),
                (from, to) -> ReportedSpeed.of(trace, X, from, to),
                (from, to) -> FollowingError.steady(trace, X, from, to));
    }

    @ParameterizedTest
    @MethodSource
    void aWindowThatIsTurnedRoundIsRefused(BiConsumer<Double, Double> measure) {
        for (double to : List.of(0.5, 0.2)) {
            assertThatThrownBy(() -> measure.accept(0.5, to))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("the window must end after it begins, got 0.5 s to " + to + " s");
        }
    }

    // Source: third differences 1, −3, 3, −1 have 1 + 9 + 9 + 1 = 20 times the variance of what they are made of; drawn
    // at random.
    @Test
    void noiseOfASingleSampleIsToldFromTheEnd() {
        SplittableRandom random = new SplittableRandom(3);
        double[] x = new double[400];
        for (int i = 0; i < x.length; i++) {
            x[i] = (i < 340 ? 1000 * i * i : 1000.0 * 340 * 340) + 2 * random.nextGaussian();
        }
        assertThat(Samples.noise(x, 0)).isBetween(1.2, 2.8);
        assertThat(Samples.noise(new double[] {0, 1, 4, 9, 16, 25, 36}, 0)).isZero();
        assertThat(Samples.noise(new double[] {1, 2, 7}, 0)).isZero();
        assertThat(Samples.noise(new double[] {0, 1, 0, 1, 0, 1, 0, 1}, 100)).isZero();
    }
}
