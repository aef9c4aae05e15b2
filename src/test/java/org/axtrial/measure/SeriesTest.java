package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

/** Homing, lost motion, control limits and gauge studies against handbooks. */
class SeriesTest {

    private static List<Double> list(double... values) {
        return Arrays.stream(values).boxed().toList();
    }

    // Constructed: limits 11 ± 6/1.128, 16.319 above; 16 is nearer to it than a step of 1, and no nearer than one of
    // 0.1.
    @Test
    void aValueAtTheLimitMakesTheCountUncertain() {
        IndividualsChart chart = IndividualsChart.of(list(10, 12, 10, 12));
        Measurement coarse = chart.pointsOutside(list(11, 16), Source.DRIVE, 1);
        assertThat(coarse.value()).isZero();
        assertThat(coarse.standardUncertainty()).isCloseTo(1 / Math.sqrt(3), within(1e-12));
        assertThat(chart.pointsOutside(list(11, 16), Source.DRIVE, 0.1).standardUncertainty())
                .isZero();
    }

    // Constructed: mean 2 and s = 1 (sum of squares 4, n − 1 = 4).
    @Test
    void spreadAndRangeOfHoming() {
        List<Double> found = list(1, 1, 2, 3, 3);
        Measurement spread = RestSeries.homingSpread(found, Unit.COUNT, Source.DRIVE, 1);
        assertThat(spread.value()).isEqualTo(4);
        // Source: chi-square with 4 degrees of freedom, F(x) = 1 − (1 + x/2)·exp(−x/2), is 0.0455 at x = 0.67397 (by
        // hand):
        // h = √(4/0.67397) − 1 = 1.4362; over k = 2.8693 (JCGM 100:2008, Table G.2) 0.50053; and 1/√6 of 4.3.9.
        assertThat(spread.standardUncertainty()).isCloseTo(Math.hypot(4 * 0.50053, 1 / Math.sqrt(6)), within(1e-3));
        Measurement range = RestSeries.homingRange(found, Unit.COUNT, Source.DRIVE, 1);
        assertThat(range.value()).isEqualTo(2);
        assertThat(range.definition()).contains("5 homings");
        assertThatThrownBy(() -> RestSeries.homingSpread(list(1), Unit.COUNT, Source.DRIVE, 1))
                .hasMessage("at least 2 positions are needed, got 1");
    }

    // Source: control chart constants for n = 5: c4 = 0.9400 and d2 = 2.326 (NIST/SEMATECH 6.3.2, from memory).
    @Test
    void spreadAndRangeOfFiveHomingsMeetTheHandbook() {
        Random random = new Random(230);
        double spreads = 0;
        double ranges = 0;
        int series = 20_000;
        for (int i = 0; i < series; i++) {
            List<Double> found = new ArrayList<>();
            for (int k = 0; k < 5; k++) {
                found.add(random.nextGaussian());
            }
            spreads +=
                    RestSeries.homingSpread(found, Unit.COUNT, Source.DRIVE, 0).value() / 4;
            ranges += RestSeries.homingRange(found, Unit.COUNT, Source.DRIVE, 0).value();
        }
        assertThat(spreads / series).isCloseTo(0.9400, within(0.01));
        assertThat(ranges / series).isCloseTo(2.326, within(0.02));
    }

    // Constructed: row 4 of the positioning example: means 3 and 6, s = 1 each, n = 5.
    @Test
    void lostMotion() {
        Measurement lost =
                RestSeries.lostMotion(list(2, 2, 3, 4, 4), list(5, 5, 6, 7, 7), Unit.MICROMETRE, Source.INSTRUMENT, 0);
        assertThat(lost.value()).isEqualTo(-3);
        assertThat(lost.standardUncertainty()).isCloseTo(Math.sqrt(0.4), within(1e-12));
        assertThat(lost.budget().effectiveDegreesOfFreedom()).isCloseTo(8, within(1e-9));
    }

    // Source: NIST/SEMATECH e-Handbook, 6.3.2.2, individuals control chart (data from memory, recomputed).
    @Test
    void individualsChart() {
        List<Double> values = list(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);
        IndividualsChart chart = IndividualsChart.of(values);
        assertThat(chart.centre()).isCloseTo(50.81, within(1e-9));
        assertThat(chart.meanRange()).isCloseTo(1.87778, within(5e-6));
        assertThat(chart.upper()).isCloseTo(55.8041, within(5e-5));
        assertThat(chart.lower()).isCloseTo(45.8159, within(5e-5));
        assertThat(chart.rangeUpper()).isCloseTo(6.1347, within(5e-5));
        assertThat(chart.outside(values)).isEmpty();
        assertThat(chart.outside(list(50, 45, 55.8, 56))).containsExactly(1, 3);
        assertThatThrownBy(() -> IndividualsChart.of(list(1)))
                .hasMessage("control limits need at least two values, got 1");
    }

    /** From rows of one appraiser and trial each, as the tables print them. */
    private static GaugeStudy study(int trials, double[][] rows) {
        List<List<List<Double>>> readings = new ArrayList<>();
        for (int a = 0; a < rows.length / trials; a++) {
            List<List<Double>> parts = new ArrayList<>();
            for (int p = 0; p < rows[0].length; p++) {
                List<Double> cell = new ArrayList<>();
                for (int t = 0; t < trials; t++) {
                    cell.add(rows[a * trials + t][p]);
                }
                parts.add(cell);
            }
            readings.add(parts);
        }
        return GaugeStudy.of(readings);
    }

    // Source: same, average and range method; printed 0.20188, 0.22963, 0.30575, 1.10456, 1.14610, 26.68 %, 5.
    @Test
    void averageAndRange() {
        GaugeStudy.AverageRange result = study(3, GaugeExample.readings()).averageRange();
        assertThat(result.repeatability()).isCloseTo(0.20186, within(5e-6));
        assertThat(result.reproducibility()).isCloseTo(0.22967, within(1e-5));
        assertThat(result.gauge()).isCloseTo(0.30577, within(1e-5));
        assertThat(result.part()).isCloseTo(1.10460, within(5e-5));
        assertThat(result.total()).isCloseTo(1.14613, within(5e-5));
        assertThat(result.percent()).isCloseTo(26.68, within(0.01));
        assertThat(result.categories()).isEqualTo(5);
    }

    // Source: same, mean squares of the analysis of variance, recomputed.
    @Test
    void analysisOfVariance() {
        GaugeStudy.Anova result = study(3, GaugeExample.readings()).anova();
        assertThat(result.meanSquarePart()).isCloseTo(9.817993, within(5e-7));
        assertThat(result.meanSquareAppraiser()).isCloseTo(1.583631, within(5e-7));
        assertThat(result.meanSquareInteraction()).isCloseTo(0.019943, within(5e-7));
        assertThat(result.meanSquareError()).isCloseTo(0.045982, within(5e-7));
        assertThat(result.interaction()).isZero();
    }

    // Source: Houf and Berman 1988, thermal impedance of power modules, three inspectors, three tests, ten parts; mean
    // squares and variance components as published with the data.
    @Test
    void thermalImpedance() {
        GaugeStudy.Anova result = study(3, new double[][] {
                    {37, 42, 30, 42, 28, 42, 25, 40, 25, 35},
                    {38, 41, 31, 43, 30, 42, 26, 40, 25, 34},
                    {37, 43, 31, 42, 29, 43, 27, 40, 25, 34},
                    {41, 42, 31, 43, 29, 45, 28, 43, 27, 35},
                    {41, 42, 31, 43, 30, 45, 28, 42, 29, 35},
                    {40, 42, 31, 43, 29, 45, 30, 42, 28, 34},
                    {41, 43, 29, 42, 31, 44, 29, 43, 26, 35},
                    {42, 42, 30, 42, 29, 46, 27, 43, 26, 34},
                    {41, 43, 28, 42, 29, 45, 27, 41, 26, 35},
                })
                .anova();
        assertThat(result.meanSquarePart()).isCloseTo(437.3284, within(5e-5));
        assertThat(result.meanSquareAppraiser()).isCloseTo(19.6333, within(5e-5));
        assertThat(result.meanSquareInteraction()).isCloseTo(2.69506, within(5e-6));
        assertThat(result.meanSquareError()).isCloseTo(0.51111, within(5e-6));
        assertThat(result.part()).isCloseTo(48.2926, within(5e-5));
        assertThat(result.appraiser()).isCloseTo(0.56461, within(5e-6));
        assertThat(result.interaction()).isCloseTo(0.72798, within(5e-6));
        assertThat(result.repeatability()).isCloseTo(0.51111, within(5e-6));
        assertThat(result.gauge()).isCloseTo(0.56461 + 0.72798 + 0.51111, within(2e-5));
    }

    @Test
    void incompleteStudiesAreRefused() {
        assertThatThrownBy(() -> GaugeStudy.of(List.of()))
                .hasMessage("a gauge study takes 2 to 5 appraisers, 2 to 10 parts and 2 to 5 trials, got 0, 0 and 0");
        List<List<Double>> full = List.of(list(1, 2), list(3, 4));
        assertThatThrownBy(() -> GaugeStudy.of(List.of(full, List.of(list(1, 2), list(3)))))
                .hasMessage("appraiser 2 has read part 2 1 times instead of 2");
        assertThatThrownBy(() -> GaugeStudy.of(List.of(full, List.of(list(1, 2)))))
                .hasMessage("appraiser 2 has read 1 parts and the first one 2");
    }

    // Source: as for the handbook study: gauge and part as variances, 100·√(1.80370/(1.80370 + 48.2926)) = 18.975.
    @Test
    void shareOfTheGaugeByAnalysisOfVariance() {
        GaugeStudy.Anova result = new GaugeStudy.Anova(0, 0, 0, 0, 48.2926, 0.56461, 0.72798, 0.51111);
        assertThat(result.percent()).isCloseTo(18.975, within(5e-4));
    }

    @Test
    void twoHomingsAreASeriesAndAMissingOneIsRefused() {
        // By hand: 1 and 3 have s = √2; relative uncertainty of one degree of freedom as for five homings above.
        Measurement spread = RestSeries.homingSpread(list(1, 3), Unit.COUNT, Source.DRIVE, 0);
        assertThat(spread.value()).isCloseTo(4 * Math.sqrt(2), within(1e-12));
        assertThat(spread.standardUncertainty())
                .isCloseTo(4 * Math.sqrt(2) * DeviationSpread.relative(1), within(1e-12));
        assertThatThrownBy(() -> RestSeries.homingRange(list(1, Double.NaN), Unit.COUNT, Source.DRIVE, 1))
                .hasMessage("a position must be finite, got NaN");
    }

    @Test
    void twoValuesHaveControlLimitsAndALimitIsInside() {
        IndividualsChart chart = IndividualsChart.of(list(10, 12));
        // By hand: 11 ± 3 · 2/1.128.
        assertThat(chart.upper()).isCloseTo(16.319149, within(5e-7));
        assertThat(chart.lower()).isCloseTo(5.680851, within(5e-7));
        assertThat(chart.outside(list(chart.lower(), chart.upper(), 11))).isEmpty();
    }
}
