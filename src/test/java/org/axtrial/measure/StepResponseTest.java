package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Overshoot and settling of step responses that control theory knows in closed form. */
class StepResponseTest {

    private static final double PERIOD = 0.001;

    /** Step response of ωn²/(s² + 2ζωn·s + ωn²) with ωn = 1. */
    private static DoubleUnaryOperator secondOrder(double zeta) {
        double root = Math.sqrt(1 - zeta * zeta);
        return t -> t < 0 ? 0 : 1 - Math.exp(-zeta * t) * (Math.cos(root * t) + zeta / root * Math.sin(root * t));
    }

    // Source: textbook second-order system, OS = 100·exp(−πζ/√(1−ζ²)); settling by exact last crossing, recomputed.
    @ParameterizedTest
    @CsvSource({
        "0.1, 72.9248, 3.1574, 38.383, 28.968",
        "0.2, 52.6621, 3.2064, 19.602, 13.745",
        "0.3, 37.2326, 3.2933, 11.230, 10.137",
        "0.4, 25.3827, 3.4278, 8.409, 7.609",
        "0.5, 16.3034, 3.6276, 8.076, 5.289",
        "0.6, 9.4780, 3.9270, 5.943, 5.229",
        "0.7, 4.5988, 4.3991, 5.979, 2.900",
        "0.8, 1.5165, 5.2360, 3.756, 3.385",
        "0.9, 0.1524, 7.2073, 4.700, 4.014",
    })
    void secondOrderTable(double zeta, double overshoot, double peakTime, double settling2, double settling5) {
        Trace trace = Sampled.every(PERIOD).of(-0.05, 60, secondOrder(zeta));

        Measurement over = Overshoot.of(trace, X, 0, 1);
        assertThat(100 * over.value()).isCloseTo(overshoot, within(1e-4));
        assertThat(over.marks().get(0).seconds()).isCloseTo(peakTime, within(PERIOD / 2 + 5e-5));

        assertSettles(trace, 0.02, settling2);
        assertSettles(trace, 0.05, settling5);
    }

    // Source: first-order lag, ts = −τ·ln(band): 3.912023 τ for 2 %, 2.995732 τ for 5 %.
    @ParameterizedTest
    @CsvSource({"0.02, 3.912023", "0.05, 2.995732"})
    void firstOrderLag(double band, double settling) {
        Trace trace = Sampled.every(PERIOD).of(-0.05, 10, t -> t < 0 ? 0 : 1 - Math.exp(-t));
        assertSettles(trace, band, settling);
        assertThat(Overshoot.of(trace, X, 0, 1).value()).isZero();
    }

    private static void assertSettles(Trace trace, double band, double expected) {
        Measurement settling = Settling.of(trace, X, 1, band);
        assertThat(settling.bound()).isEqualTo(Measurement.Bound.EXACT);
        assertThat(settling.value()).isCloseTo(expected, within(PERIOD / 2 + 5e-4));
        assertThat(settling.resolution()).isCloseTo(PERIOD, within(1e-12));
    }

    // Source: as above; at 20 ms the value must agree within half an interval, and the budget must say so.
    @ParameterizedTest
    @CsvSource({"0.1, 38.383", "0.5, 8.076", "0.7, 5.979", "0.9, 4.700"})
    void coarseSamplingStaysWithinItsOwnUncertainty(double zeta, double settling) {
        Measurement measured = Settling.of(Sampled.every(0.02).of(0, 60, secondOrder(zeta)), X, 1, 0.02);
        assertThat(Math.abs(measured.value() - settling)).isLessThan(0.01 + 5e-4);
        assertThat(measured.standardUncertainty()).isCloseTo(0.01 / Math.sqrt(3), within(1e-9));
        assertThat(Judge.judge(
                                measured,
                                new Criterion.AtMost(org.axtrial.quantity.Quantity.of(5, Unit.MILLISECOND)),
                                Conversion.SAME_DIMENSION)
                        .verdict())
                .isEqualTo(Verdict.FAIL);
    }
}
