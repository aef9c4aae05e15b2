package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.axtrial.quantity.Unit;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.api.Test;

class ScaleFitTest {

    private static List<Double> list(double... values) {
        return Arrays.stream(values).boxed().toList();
    }

    // Source: NIST StRD, Norris, certified values of the straight line.
    @Test
    void norris() {
        LineFit line = LineFit.of(Strd.NORRIS_X, Strd.NORRIS_Y);
        assertThat(line.intercept()).isCloseTo(-0.262323073774029, within(1e-13));
        assertThat(line.slope()).isCloseTo(1.00211681802045, within(6e-15));
        assertThat(line.interceptError()).isCloseTo(0.232818234301152, within(1e-14));
        assertThat(line.slopeError()).isCloseTo(0.429796848199937e-3, within(3e-17));
        assertThat(line.residual()).isCloseTo(0.884796396144373, within(5e-14));
    }

    // Source: NIST StRD, Norris; Student's t for 34 degrees of freedom makes the confidence interval of the slope.
    @Test
    void theScaleHasTheConfidenceIntervalOfTheSlope() {
        ScaleFit fit =
                ScaleFit.of(list(Strd.NORRIS_X), list(Strd.NORRIS_Y), Unit.MILLIMETRE, Source.INSTRUMENT, 0, List.of());
        assertThat(fit.scale().value()).isCloseTo(1.00211681802045, within(6e-15));
        assertThat(fit.scale().standardUncertainty()).isCloseTo(0.429796848199937e-3, within(3e-17));
        double t = new TDistribution(34).inverseCumulativeProbability(0.97724986805);
        assertThat(fit.scale().expandedUncertainty()).isCloseTo(t * 0.429796848199937e-3, within(1e-9));
        assertThat(fit.offset().value()).isCloseTo(-0.262323073774029, within(1e-13));
        assertThat(fit.offset().standardUncertainty()).isCloseTo(0.232818234301152, within(1e-14));
        assertThat(fit.offset().unit()).isEqualTo(Unit.MILLIMETRE);
        assertThat(fit.residual()).isCloseTo(0.884796396144373, within(5e-14));
    }

    // Source: constructed: a screw of 10.01 mm taken for 10 mm, read without error from a zero 0.5 mm off.
    @Test
    void aWrongLeadIsTheSlope() {
        ScaleFit fit = ScaleFit.of(
                list(0, 100, 200, 300),
                list(0.5, 100.6, 200.7, 300.8),
                Unit.MILLIMETRE,
                Source.INSTRUMENT,
                0.001,
                List.of(Contribution.certificate("scale of the instrument", "U = 2e-6, k = 2", 2e-6, 2)));
        assertThat(fit.scale().value()).isCloseTo(1.001, within(1e-12));
        assertThat(fit.offset().value()).isCloseTo(0.5, within(1e-10));
        // Source: JCGM 100:2008, F.2.2.1 and 5.1.2, with Σ(x − x̄)² = 50 000.
        assertThat(fit.scale().standardUncertainty()).isCloseTo(Math.sqrt(1e-12 + 1e-6 / 12 / 50_000), within(1e-10));
    }

    @Test
    void whatIsNoScaleIsRefused() {
        assertThatThrownBy(() -> ScaleFit.of(list(1, 2), list(1, 2), Unit.DEGREE, Source.DRIVE, 0, List.of()))
                .hasMessage("a scale needs at least three positions, each commanded and measured, got 2 and 2");
        assertThatThrownBy(() -> ScaleFit.of(list(1, 1, 1), list(1, 2, 3), Unit.DEGREE, Source.DRIVE, 0, List.of()))
                .hasMessage("all commanded positions are the same; a scale needs a distance");
    }

    // Source: JCGM 100:2008, F.2.2.1: what is left of the resolution where the line is met by all points.
    @Test
    void theResolutionOfAScaleIsThatOverTheLength() {
        ScaleFit fit =
                ScaleFit.of(list(0, 100, 200), list(0, 100, 200), Unit.MILLIMETRE, Source.DRIVE, 0.01, List.of());
        assertThat(fit.scale().resolution()).isCloseTo(0.01 / Math.sqrt(20_000), within(1e-15));
        assertThat(fit.scale().source()).isEqualTo(Source.DRIVE);
        assertThat(fit.scale().standardUncertainty())
                .isCloseTo(0.01 / Math.sqrt(12) / Math.sqrt(20_000), within(1e-12));
    }
}
