package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What related residuals make of a slope; the line itself is held against NIST in {@link ScaleFitTest}. */
class LineFitTest {

    private static LineFit line(int n, double autocorrelation) {
        return new LineFit(0, 0, 0, 2, 1, n, 1, autocorrelation);
    }

    // By hand from λ = (1 + ρ)/(1 − ρ): the slope error of 2 times √(λ(n − 2)/(n − 2λ)), and n(1 − ρ²)/(1 + ρ²) − 2
    // together with n(1 − ρ²)/2 as resistors in parallel. ρ = 0.5: λ = 3, 58 and 37.5; ρ = 0.6: λ = 4, 45.059 and 32.
    @ParameterizedTest
    @CsvSource({"100, 0.5, 3.537038, 22.7749", "100, 0.6, 4.128375, 18.7115", "50, 0.5, 3.618136, 11.2299"})
    void relatedResidualsWidenTheErrorAndTakeFreedom(int n, double rho, double error, double freedom) {
        assertThat(line(n, rho).slopeErrorOfSeries()).isCloseTo(error, within(2e-6));
        assertThat(line(n, rho).freedomOfSeries()).isCloseTo(freedom, within(1e-4));
    }

    @Test
    void independentResidualsChangeNothing() {
        assertThat(line(12, 0).slopeErrorOfSeries()).isEqualTo(2);
        assertThat(line(12, 0).freedomOfSeries()).isEqualTo(10);
    }

    // λ = 39 is more than the ten samples can bear: what is left of them counts as one.
    @Test
    void aShortCreepIsWorthOne() {
        assertThat(line(10, 0.95).slopeErrorOfSeries()).isCloseTo(2 * Math.sqrt(39 * 8), within(1e-9));
        assertThat(line(10, 0.95).freedomOfSeries()).isEqualTo(1);
    }
}
