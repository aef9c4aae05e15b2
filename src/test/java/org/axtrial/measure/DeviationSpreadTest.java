package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DeviationSpreadTest {

    /** Source: closed form of the chi-square distribution of an even ν: 1 − e^(−x/2)·Σ (x/2)^k/k! for k below ν/2. */
    private static double chiSquare(int freedom, double x) {
        double term = 1;
        double sum = 1;
        for (int k = 1; k < freedom / 2; k++) {
            term *= x / 2 / k;
            sum += term;
        }
        return 1 - Math.exp(-x / 2) * sum;
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 4, 8, 10, 20, 50, 100, 400})
    void theIntervalHoldsTheDeviationAsOftenAsTwoSigma(int freedom) {
        double h = DeviationSpread.relative(freedom) * CoverageFactor.of(freedom);
        double above = h < 1 ? chiSquare(freedom, freedom / ((1 - h) * (1 - h))) : 1;
        double below = chiSquare(freedom, freedom / ((1 + h) * (1 + h)));
        assertThat(above - below).isCloseTo(0.9544997361, within(1e-9));
    }

    // Source: JCGM 100:2008, E.4.3: for many values s is known to s/√(2ν).
    @Test
    void manyValuesComeToTheRuleOfTheGum() {
        assertThat(DeviationSpread.relative(1000)).isCloseTo(1 / Math.sqrt(2000), within(1e-3 / Math.sqrt(2000) * 10));
        assertThat(DeviationSpread.relative(5000)).isCloseTo(0.01, within(1e-12));
    }
}
