package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Missing and late samples: each signal is known by its formula, so the truth is known where no sample is. */
class GapTest {

    private static final double PERIOD = 0.01;

    /** Two parabolas: one of height 1 at 0.2 s that is always seen, and one of height 2 at 0.6 s. */
    private static double twoPeaks(double t) {
        return Math.max(1 - 100 * (t - 0.2) * (t - 0.2), Math.max(0, 2 - 100 * (t - 0.6) * (t - 0.6)));
    }

    /** Samples of 0 … 1 s without those between two moments. */
    private static Trace without(DoubleUnaryOperator x, double from, double to) {
        List<Double> points = new ArrayList<>();
        for (int i = 0; i <= 100; i++) {
            double t = i * PERIOD;
            if (t <= from || t >= to) {
                points.add(t);
                points.add(x.applyAsDouble(t));
            }
        }
        return Sampled.every(PERIOD)
                .points(points.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static double halfWidth(Measurement measured) {
        return measured.budget().contributions().stream()
                .filter(c -> c.name().equals("peak between samples"))
                .mapToDouble(c -> c.standardUncertainty() * 2)
                .sum();
    }

    // Source: constructed. The higher peak falls into the gap; the part above the highest sample must be in the budget.
    @ParameterizedTest
    @ValueSource(doubles = {0.11, 0.12, 0.13})
    void aPeakInAGapFarFromTheHighestSampleCounts(double half) {
        Trace whole = without(GapTest::twoPeaks, 1, 1);
        Trace gap = without(GapTest::twoPeaks, 0.6 - half + 1e-9, 0.6 + half - 1e-9);
        for (double sign : new double[] {1, -1}) {
            Measurement seen = Peak.of(signed(whole, sign), "peak", "", X);
            Measurement missed = Peak.of(signed(gap, sign), "peak", "", X);
            assertThat(seen.value()).isCloseTo(2, within(1e-9));
            assertThat(missed.value()).isLessThan(1.1);
            assertThat(missed.value() + halfWidth(missed)).isGreaterThanOrEqualTo(2 - 1e-9);
            assertThat(missed.standardUncertainty()).isGreaterThan(seen.standardUncertainty());
        }
    }

    private static Trace signed(Trace trace, double sign) {
        double[] points = new double[2 * trace.size()];
        for (int i = 0; i < trace.size(); i++) {
            points[2 * i] = trace.time(i);
            points[2 * i + 1] = sign * trace.value(X, i);
        }
        return Sampled.every(PERIOD).points(points);
    }

    @Test
    void anOvershootInAGapCounts() {
        Measurement missed = Overshoot.of(without(GapTest::twoPeaks, 0.49, 0.71), X, -1, 0.5);
        assertThat(missed.value()).isLessThan(1);
        assertThat(missed.value() + halfWidth(missed)).isGreaterThanOrEqualTo(1.5 - 1e-9);
    }

    // a·P²/8 of 10 /s² at 20 ms is 0.0005, a·P²/2 four times that, by hand.
    @Test
    void theBudgetTellsWhatCouldHideIfNothingWereKnown() {
        Trace trace = Sampled.every(0.02).of(0, 0.4, t -> 0.1 - 5 * (t - 0.21) * (t - 0.21));
        assertThat(Overshoot.of(trace, X, -1, 0).budget().contributions())
                .anySatisfy(c -> assertThat(c.how()).contains("0.0005").contains("a·P²/2 is 0.002"));
    }

    @Test
    void aPeakOfTwoSamplesIsALowerBound() {
        assertThat(Peak.of(Sampled.every(1).values(0, 3, 4), "peak", "", X).bound())
                .isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(Peak.of(Sampled.every(1).values(0, 3, 4, 3), "peak", "", X).bound())
                .isEqualTo(Measurement.Bound.EXACT);
    }

    // The entry lies somewhere in the gap: 0.5 s wide, so ± 0.25 s.
    @Test
    void anEntryIntoTheWindowWithinAGapIsKnownToTheGap() {
        DoubleUnaryOperator approach = t -> 10 * (1 - Math.exp(-20 * t));
        Measurement fine = Settling.of(without(approach, 1, 1), X, 10, 0.1);
        Measurement coarse = Settling.of(without(approach, 0.1, 0.6), X, 10, 0.1);
        double truth = Math.log(100) / 20;
        assertThat(Math.abs(coarse.value() - truth)).isLessThanOrEqualTo(0.25);
        assertThat(coarse.standardUncertainty()).isGreaterThanOrEqualTo(0.25 / Math.sqrt(3) - 1e-6);
        assertThat(coarse.standardUncertainty()).isGreaterThan(fine.standardUncertainty());
        assertThat(coarse.samplePeriod().orElseThrow()).isCloseTo(0.5, within(1e-6));
        assertThat(coarse.resolution()).isCloseTo(0.5, within(1e-6));
    }

    // An axis that could have left the window and come back unseen is judged by the longest interval, wherever it is.
    @Test
    void aGapAfterTheEntryMakesAShorterLimitUndecided() {
        DoubleUnaryOperator approach = t -> 10 * (1 - Math.exp(-20 * t));
        Criterion limit = new Criterion.AtMost(new Quantity(0.3, Unit.SECOND));
        Measurement gap = Settling.of(without(approach, 0.5, 0.9), X, 10, 0.1);
        assertThat(gap.resolution()).isCloseTo(0.4, within(1e-6));
        assertThat(Coarseness.of(gap, limit)).isPresent();
        assertThat(Coarseness.of(Settling.of(without(approach, 1, 1), X, 10, 0.1), limit))
                .isEmpty();
    }

    /** Two parabolas as above that go on below zero: only their curvature of 200 is ever seen. */
    private static double twoOpenPeaks(double t) {
        return Math.max(1 - 100 * (t - 0.2) * (t - 0.2), 2 - 100 * (t - 0.6) * (t - 0.6));
    }

    // Source: constructed. An even bend is known from the samples beside the gap, and so is what it hides, to the last
    // digit, wherever in
    // the gap the peak lies: 2 is 1 above the highest sample.
    @ParameterizedTest
    @ValueSource(doubles = {0.49, 0.48, 0.45})
    void whatAnEvenBendHidesInAGapIsKnown(double from) {
        Trace gap = without(GapTest::twoOpenPeaks, from + 1e-9, 0.72 - 1e-9);
        double[] x = gap.values(X);
        int peak = Samples.largest(x);
        assertThat(gap.time(peak)).isCloseTo(0.2, within(1e-9));
        assertThat(Samples.hiddenAbove(gap, x, x, peak).above()).isCloseTo(1, within(1e-6));
    }

    @Test
    void aLineTooSteepForATurnHidesNothing() {
        Trace gap = without(t -> t < 0.3 ? 1 - 100 * (t - 0.2) * (t - 0.2) : 0.9 - (t - 0.3), 0.5, 0.6);
        double[] x = gap.values(X);
        int peak = Samples.largest(x);
        assertThat(Samples.hiddenAbove(gap, x, x, peak).above())
                .isCloseTo(Samples.hiddenBeyond(gap, x, peak), within(1e-12));
    }

    // By hand: t² has x″ = 2; a gap of 4 s of 9 s hides 2 · 4²/8 = 4, two thirds of it in the mean, for its share of
    // the time.
    @Test
    void aGapInAMeanCountsForItsShareOfTheTime() {
        Trace trace = Sampled.every(1).points(0, 0, 1, 1, 2, 4, 3, 9, 7, 49, 8, 64, 9, 81);
        Contribution gap = Samples.gaps(trace, trace.values(X), -3);
        assertThat(gap.spread()).isCloseTo(3 * 4 * 2 / 3.0 * 4 / 9, within(1e-9));
        assertThat(gap.name()).isEqualTo("signal in gaps");
        assertThat(gap.how()).isEqualTo("one gap between samples, up to 4000 ms");
    }

    // By hand: 2 · 5²/8 · 5 more in another gap, of 15 s in all.
    @Test
    void severalGapsAddUp() {
        Trace trace = Sampled.every(1).points(0, 0, 1, 1, 2, 4, 3, 9, 7, 49, 8, 64, 9, 81, 10, 100, 15, 225);
        Contribution gaps = Samples.gaps(trace, trace.values(X), 1);
        assertThat(gaps.spread()).isCloseTo((4 * 4 + 6.25 * 5) * 2 / 3.0 / 15, within(1e-9));
        assertThat(gaps.how()).isEqualTo("2 gaps between samples, up to 5000 ms");
        Trace none = Sampled.every(1).values(0, 1, 4, 9);
        assertThat(Samples.gaps(none, none.values(X), 1).spread()).isZero();
    }
}
