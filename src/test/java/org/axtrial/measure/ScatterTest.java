package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScatterTest {

    /**
     * Source: NIST StRD, univariate summary statistics, certified mean, standard deviation and lag-1 autocorrelation. The
     * last columns are the relative errors that doubles allow: NumAcc3 and 4 lose digits when 0.1 is written beside 10⁶
     * and 10⁷.
     */
    @ParameterizedTest
    @CsvSource({
        "PiDigits, 5000, 4.53480000000000, 2.86733906028871, -0.00355099287237972, 1e-14, 1e-14",
        "Lottery, 218, 518.958715596330, 291.699727470969, -0.120948622967393, 1e-14, 1e-14",
        "Lew, 200, -177.435000000000, 277.332168044316, -0.307304800605679, 1e-14, 1e-14",
        "Mavro, 50, 2.00185600000000, 0.000429123454003053, 0.937989183438248, 1e-14, 1e-12",
        "Michelso, 100, 299.852400000000, 0.0790105478190518, 0.535199668621283, 1e-14, 1e-13",
        "NumAcc1, 3, 10000002, 1, -0.5, 0, 0",
        "NumAcc2, 1001, 1.2, 0.1, -0.999, 1e-14, 1e-14",
        "NumAcc3, 1001, 1000000.2, 0.1, -0.999, 1e-14, 1e-9",
        "NumAcc4, 1001, 10000000.2, 0.1, -0.999, 1e-14, 1e-8",
    })
    void certifiedDataSets(
            String set, int n, double mean, double deviation, double lagOne, double meanError, double otherError) {
        double[] values = Strd.univariate(set);
        assertThat(values).hasSize(n);
        Scatter scatter = Scatter.of(values);
        assertThat(scatter.mean()).isCloseTo(mean, within(Math.abs(mean) * meanError));
        assertThat(scatter.deviation()).isCloseTo(deviation, within(deviation * otherError));
        assertThat(Scatter.lagOne(values, 0, n, scatter.mean())).isCloseTo(lagOne, within(otherError + 1e-14));
    }

    // Source: constructed: of NIST's Mavro, r₁ = 0.937989 and n = 50, so that (50 r₁ + 1)/46 is 1.041, cut to 0.98:
    // 50 · 0.02/1.98 is below one, so that the mean is worth one value.
    @Test
    void aCreepIsWorthOneValue() {
        Scatter scatter = Scatter.of(Strd.univariate("Mavro"));
        assertThat(scatter.autocorrelation()).isEqualTo(0.98);
        assertThat(scatter.effectiveSize()).isEqualTo(1);
        assertThat(scatter.degreesOfFreedom()).isEqualTo(1);
    }

    // Source: Michelso, r₁ = 0.5352, n = 100: ρ = 54.52/96 = 0.56792; n* = 100 · 0.43208/1.56792 = 27.557 and
    // n′ = 100 · 26.557/99 = 26.826;
    // ρ² = 0.32253: 100 · 0.67747/1.32253 − 1 = 50.23.
    @Test
    void relatedValuesAreWorthFewer() {
        Scatter scatter = Scatter.of(Strd.univariate("Michelso"));
        assertThat(scatter.effectiveSize()).isCloseTo(26.826, within(0.005));
        assertThat(scatter.degreesOfFreedom()).isCloseTo(50.23, within(0.02));
        // 1/(1/50.23 + 2/(100 · 0.67747)) = 20.22, by hand.
        assertThat(scatter.freedomOfMean()).isCloseTo(20.22, within(0.02));
    }

    @Test
    void alternatingOrEqualValuesAreTakenAsIndependent() {
        assertThat(Scatter.of(Strd.univariate("NumAcc2")).effectiveSize()).isEqualTo(1001);
        assertThat(Scatter.of(new double[] {7, 7, 7, 7, 7, 7, 7, 7, 7, 7}).effectiveSize())
                .isEqualTo(10);
        assertThat(Scatter.of(new double[] {7})).isEqualTo(new Scatter(7, 0, 1, 0, 1));
    }

    // Nine samples of a controlled axis may all lie in one wave of its noise; nine approaches do not.
    @Test
    void fewSamplesAreWorthOneUnlessTheyAreKnownToBeIndependent() {
        double[] nine = {1, 3, 2, 5, 4, 7, 6, 9, 8};
        assertThat(Scatter.of(nine).effectiveSize()).isEqualTo(1);
        assertThat(Scatter.of(nine).freedomOfMean()).isEqualTo(8);
        assertThat(Scatter.ofIndependent(nine).effectiveSize()).isEqualTo(9);
        assertThat(Scatter.ofIndependent(nine).deviation())
                .isEqualTo(Scatter.of(nine).deviation());
        assertThat(Scatter.of(new double[] {7}).effectiveSize()).isEqualTo(1);
    }

    /**
     * Source: Monte Carlo (JCGM 101:2008) of a first-order autoregressive series with fixed seed. The root mean square of
     * the stated standard uncertainties has to meet the standard deviation that the means really have; s/√n is shown to
     * fall short.
     */
    @ParameterizedTest
    @CsvSource({"0, 50, 0.9, 1.25", "0.5, 50, 0.9, 1.2", "0.8, 100, 0.9, 1.25", "0.9, 200, 0.9, 1.25"})
    void theMeanOfRelatedValuesIsAsUncertainAsItSays(double rho, int n, double least, double most) {
        Random random = new Random(11);
        int series = 4000;
        double squaresOfMeans = 0;
        double stated = 0;
        double naive = 0;
        for (int i = 0; i < series; i++) {
            Scatter scatter = Scatter.of(autoregressive(random, rho, n));
            squaresOfMeans += scatter.mean() * scatter.mean();
            stated += scatter.deviation() * scatter.deviation() / scatter.effectiveSize();
            naive += scatter.deviation() * scatter.deviation() / n;
        }
        assertThat(Math.sqrt(stated / squaresOfMeans)).isBetween(least, most);
        if (rho > 0.4) {
            assertThat(Math.sqrt(naive / squaresOfMeans)).isLessThan(0.65);
        }
    }

    private static double[] autoregressive(Random random, double rho, int n) {
        double[] values = new double[n];
        double value = random.nextGaussian();
        for (int i = 0; i < n; i++) {
            values[i] = value;
            value = rho * value + Math.sqrt(1 - rho * rho) * random.nextGaussian();
        }
        return values;
    }

    // By hand: ρ of 12 samples and of 36 others is one quarter of the one and three quarters of the other.
    @Test
    void fewSamplesAreRelatedAsManyOthersOfTheSameSignal() {
        Scatter few = new Scatter(7, 2, 12, 0.6, 12);
        Scatter many = new Scatter(1, 3, 36, 0.2, 36);
        assertThat(few.relatedAs(many)).isEqualTo(new Scatter(7, 2, 12, 0.3, 48));
        assertThat(few.relatedAs(many).effectiveSize()).isLessThan(12);
        assertThat(few.relatedAs(many).freedomOfMean()).isGreaterThan(few.freedomOfMean());
    }

    @Test
    void ofTooFewToTellOnlyTheOthersTell() {
        Scatter five = new Scatter(7, 2, 5, 0, 5);
        Scatter many = new Scatter(1, 3, 36, 0, 36);
        assertThat(five.effectiveSize()).isEqualTo(1);
        assertThat(five.relatedAs(many).effectiveSize()).isEqualTo(5);
        assertThat(five.relatedAs(many).seenIn()).isEqualTo(36);
        Scatter still = new Scatter(7, 0, 20, 0, 20);
        assertThat(still.relatedAs(many)).isEqualTo(new Scatter(7, 0, 20, 0, 36));
    }

    @Test
    void othersThatTellNothingChangeNothing() {
        Scatter five = new Scatter(7, 2, 5, 0, 5);
        assertThat(five.relatedAs(new Scatter(1, 0, 36, 0, 36))).isEqualTo(five);
        assertThat(five.relatedAs(new Scatter(1, 3, 9, 0, 9))).isEqualTo(five);
        Scatter independent = Scatter.ofIndependent(new double[] {1, 2, 4});
        assertThat(independent.relatedAs(new Scatter(1, 3, 36, 0.5, 36))).isEqualTo(independent);
    }

    // By hand: r₁ of 20 values that chance brings, less than 0.8/√20 = 0.18 after its correction, is taken as none.
    @Test
    void aRelationThatChanceBringsIsNone() {
        double[] weak = new double[20];
        double[] strong = new double[20];
        for (int i = 0; i < 20; i++) {
            weak[i] = i % 2 == 0 ? 1 : -1;
            strong[i] = i < 10 ? 1 : -1;
        }
        assertThat(Scatter.of(weak).autocorrelation()).isZero();
        assertThat(Scatter.of(strong).autocorrelation()).isGreaterThan(0.8);
    }
}
