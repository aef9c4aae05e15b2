package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.assertj.core.data.Percentage;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Means, deviations and uncertainty budgets against certified and published numbers. */
class StatisticsTest {

    // Source: NIST StRD univariate summary statistics, certified values of NumAcc1 to NumAcc4.
    @ParameterizedTest
    @CsvSource({"1.2, 1e-13, 1e-13", "1000000.2, 1e-13, 1e-8", "10000000.2, 1e-13, 1e-7"})
    void numericalAccuracySets(double mean, double meanError, double deviationError) {
        double[] values = new double[1001];
        values[0] = mean;
        double whole = Math.floor(mean);
        for (int i = 1; i < values.length; i += 2) {
            values[i] = whole + 0.1;
            values[i + 1] = whole + 0.3;
        }
        assertMoments(values, mean, 0.1, meanError, deviationError);
    }

    // Source: NIST StRD NumAcc1.
    @Test
    void numericalAccuracySetOne() {
        assertMoments(new double[] {10000001, 10000003, 10000002}, 10000002, 1, 1e-15, 1e-15);
    }

    private static void assertMoments(
            double[] values, double mean, double deviation, double meanError, double deviationError) {
        Measurement measured = FollowingError.steady(Sampled.every(0.001).values(0, values), X, 0, 2);
        assertThat(measured.value()).isCloseTo(mean, Percentage.withPercentage(100 * meanError));
        // Fewer than ten samples are worth one.
        double worth = values.length < 10 ? 1 : values.length;
        assertThat(measured.standardUncertainty() * Math.sqrt(worth))
                .isCloseTo(deviation, Percentage.withPercentage(100 * deviationError + 1e-12));
    }

    // Source: JCGM 100:2008, 4.3.7 (rectangular), 4.3.9 (triangular), F.2.2.1 (resolution), 4.2.3 (mean).
    @Test
    void factorsOfTheDistributions() {
        assertThat(Contribution.rectangular("", "", 1).standardUncertainty()).isCloseTo(0.577350, within(5e-7));
        assertThat(Contribution.triangular("", "", 1).standardUncertainty()).isCloseTo(0.408248, within(5e-7));
        assertThat(Contribution.quantisation("", "", 1).standardUncertainty()).isCloseTo(0.288675, within(5e-7));
        assertThat(Contribution.repeatability("", "", 1.5, 5).standardUncertainty())
                .isCloseTo(0.6708, within(5e-5));
        assertThat(Contribution.repeatability("", "", 1.5, 5).degreesOfFreedom())
                .isEqualTo(4);
    }

    // Source: constructed positioning budget, 500 mm travel, combined after JCGM 100:2008, 5.1.2.
    @Test
    void positioningBudget() {
        Measurement measured = budget(
                Contribution.quantisation("dial", "1 µm", 1),
                new Contribution("certificate", Contribution.Evaluation.B, "U = 2 µm, k = 2", 1, 1e9),
                Contribution.rectangular("thermal", "2 K × 11.5e-6/K × 500 mm", 11.5),
                Contribution.repeatability("repeatability", "s = 1.5 µm, n = 5", 1.5, 5));
        assertThat(measured.standardUncertainty()).isCloseTo(6.7540, within(5e-5));
        assertThat(2 * measured.standardUncertainty()).isCloseTo(13.508, within(5e-4));
    }

    // Source: JCGM 100:2008, example H.1, end gauge; contributions in nm and G.4.1.
    @Test
    void endGaugeExample() {
        Measurement measured = budget(
                new Contribution("standard", Contribution.Evaluation.B, "", 25, 18),
                new Contribution("difference", Contribution.Evaluation.A, "", 9.7, 25.6),
                new Contribution("expansion", Contribution.Evaluation.B, "", 2.9, 50),
                new Contribution("temperature", Contribution.Evaluation.B, "", 16.6, 2));
        assertThat(Math.round(measured.standardUncertainty())).isEqualTo(32);
        assertThat(measured.standardUncertainty()).isCloseTo(31.71, within(0.06));
        assertThat((int) measured.budget().effectiveDegreesOfFreedom()).isEqualTo(16);
    }

    // Source: JCGM 100:2008, G.4.1; four equal contributions with ν = 10 give 40.
    @Test
    void equalContributionsAddTheirDegreesOfFreedom() {
        Contribution one = new Contribution("one", Contribution.Evaluation.A, "", 3, 10);
        assertThat(budget(one, one, one, one).budget().effectiveDegreesOfFreedom())
                .isCloseTo(40, within(1e-12));
        assertThat(budget().budget().effectiveDegreesOfFreedom()).isInfinite();
    }

    private static Measurement budget(Contribution... contributions) {
        return new Measurement(
                "length",
                "",
                0,
                Unit.MICROMETRE,
                Measurement.Bound.EXACT,
                Source.INSTRUMENT,
                OptionalDouble.empty(),
                0,
                List.of(contributions),
                List.of(),
                Optional.empty());
    }
}
