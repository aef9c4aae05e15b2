package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.stream.Stream;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Ripple, following error, torque and drift. */
class SignalMeasuresTest {

    private static final Sampled TEN_MS = Sampled.every(0.01);

    // Source: definition (max − min)/mean; 2998 … 3002 r/min is 0.1333 % peak to peak.
    @Test
    void rippleIsPeakToPeakInPercentOfTheMean() {
        Sampled speed = TEN_MS.in(Unit.REVOLUTION_PER_MINUTE).quantum(0.5);
        Measurement ripple = SpeedRipple.of(speed.values(0, 2998, 3000, 3002, 3000), X, 0, 1);
        assertThat(ripple.value()).isCloseTo(0.133333, within(1e-6));
        assertThat(ripple.unit()).isEqualTo(Unit.PERCENT);
        assertThat(ripple.resolution()).isCloseTo(100 * 0.5 / 3000, within(1e-12));
        // Source: JCGM 100:2008, 4.3.9; a·P²/8 at 3002, where the second difference is 4, less what steps of 0.5 show
        // of bends, is two
        // standard deviations.
        double above = Math.sqrt(0.25 - 6 * 0.25 / 12 / 64);
        assertThat(ripple.standardUncertainty())
                .isCloseTo(100.0 / 3000 * Math.sqrt(0.25 / 6 + above * above / 4), within(1e-12));
        Measurement backwards = SpeedRipple.of(speed.values(0, -2998, -3000, -3002, -3000), X, 0, 1);
        assertThat(backwards.value()).isCloseTo(ripple.value(), within(1e-15));
    }

    // Source: RMS of a sine is amplitude / √2.
    @Test
    void rmsRippleOfASine() {
        Trace trace = Sampled.every(0.001).of(0, 0.999, t -> 1000 + 10 * Math.sin(2 * Math.PI * 5 * t));
        assertThat(SpeedRipple.rms(trace, X, -1, 2).value()).isCloseTo(1 / Math.sqrt(2), within(1e-9));
        assertThat(SpeedRipple.of(trace, X, -1, 2).value()).isCloseTo(2, within(1e-9));
    }

    @Test
    void rippleNeedsASpeedAndThreeSamples() {
        assertThat(SpeedRipple.of(TEN_MS.values(0, 1, 1), X, 0, 1).missing().orElseThrow())
                .contains("2 of the 3 samples");
        assertThat(SpeedRipple.of(TEN_MS.quantum(1).values(0, 1, -1, 1, -1), X, 0, 1)
                        .missing()
                        .orElseThrow())
                .contains("zero within one step");
    }

    @Test
    void theLargestFollowingErrorHasNoSign() {
        Measurement peak = FollowingError.peak(TEN_MS.quantum(0.1).values(-0.01, 9, 0, 1, -3, 1, 0), X);
        assertThat(peak.value()).isEqualTo(3);
        assertThat(peak.marks().get(0).seconds()).isEqualTo(0.02);
        assertThat(peak.resolution()).isEqualTo(0.1);
    }

    // Source: position loop, steady following error v/Kv: 500 mm/s and 50 1/s give 10 mm.
    @Test
    void steadyFollowingErrorOfATypeOneLoop() {
        Sampled millimetres = Sampled.every(0.001).in(Unit.MILLIMETRE);
        Trace trace = millimetres.of(0, 1, t -> 500.0 / 50 * (1 - Math.exp(-50 * t)));
        Measurement steady = FollowingError.steady(trace, X, 0.6, 1);
        assertThat(steady.value()).isCloseTo(10, within(1e-9));
        Measurement peak = FollowingError.peak(trace, X);
        assertThat(peak.value()).isCloseTo(10, within(1e-9));
    }

    @Test
    void noSampleNoError() {
        assertThat(FollowingError.peak(TEN_MS.values(-1, 1), X).missing()).isPresent();
        assertThat(FollowingError.steady(TEN_MS.values(0, 1), X, 0, 1).missing())
                .isPresent();
    }

    // Source: worked by hand, √(ΣT²t/Σt) with the pause: √1.375 and √9.2. Corners are sampled on both sides.
    @ParameterizedTest
    @MethodSource
    void rmsTorqueOfADutyCycle(double[] torque, double[] time, double expected) {
        double[] points = new double[4 * torque.length];
        double now = 0;
        for (int i = 0; i < torque.length; i++) {
            points[4 * i] = now;
            now += time[i];
            points[4 * i + 2] = now;
            points[4 * i + 1] = torque[i];
            points[4 * i + 3] = torque[i];
        }
        Measurement rms = Torque.rms(TEN_MS.in(Unit.NEWTON_METRE).points(points), X);
        assertThat(rms.value()).isCloseTo(expected, within(5e-7));
        assertThat(rms.standardUncertainty()).isCloseTo(0, within(1e-9));
    }

    static Stream<Arguments> rmsTorqueOfADutyCycle() {
        return Stream.of(
                Arguments.of(new double[] {3, 0.5, -2, 0}, new double[] {0.1, 0.3, 0.1, 0.5}, 1.172604),
                Arguments.of(new double[] {8, 2, -4, 0}, new double[] {0.2, 0.6, 0.2, 1.0}, 3.033150));
    }

    @Test
    void sampledCornersOfADutyCycleStayWithinTheBudget() {
        Trace trace = TEN_MS.of(0, 1, t -> t < 0.1 ? 3 : t < 0.4 ? 0.5 : t < 0.5 ? -2 : 0);
        Measurement rms = Torque.rms(trace, X);
        // Source: as above.
        assertThat(Math.abs(rms.value() - 1.172604)).isLessThan(rms.expandedUncertainty());
        assertThat(rms.expandedUncertainty()).isLessThan(0.05);
    }

    @Test
    void noTorqueAtAllIsZero() {
        assertThat(Torque.rms(TEN_MS.values(0, 0, 0, 0), X).value()).isZero();
        assertThat(Torque.rms(TEN_MS.values(0, 1), X).missing()).isPresent();
        assertThat(Torque.peak(TEN_MS.values(0, 1, -4, 2), X).value()).isEqualTo(4);
    }

    @Test
    void driftIsLastMinusFirst() {
        Measurement drift = Standstill.drift(TEN_MS.quantum(0.1).values(0, 5, 4.9, 4.8, 4.7), X);
        assertThat(drift.value()).isCloseTo(-0.3, within(1e-12));
        assertThat(drift.standardUncertainty()).isCloseTo(0.1 / Math.sqrt(6), within(1e-6));
        assertThat(Standstill.drift(TEN_MS.values(0, 5), X).missing()).isPresent();
    }

    @Test
    void theRestPositionIsTheMeanAtRest() {
        Trace trace = TEN_MS.quantum(0.1).values(-0.02, 2, 2, 2, 5, 9, 12, 12.1, 12, 12.1, 12, 12.1);
        Measurement rest = Standstill.restPosition(trace, X);
        assertThat(rest.missing()).isEmpty();
        assertThat(rest.value()).isCloseTo(72.3 / 6, within(1e-12));
        assertThat(rest.unit()).isEqualTo(Unit.DEGREE);
        assertThat(rest.resolution()).isEqualTo(0.1);
        assertThat(rest.marks()).extracting(Mark::label).containsExactly("rest from", "rest to");
        // Source: JCGM 100:2008, F.2.2.1 (of q/√12 what noise leaves) and 4.2.2 (s of six, which are worth one); s of
        // values 0.1 apart in pairs is 0.1·√0.3.
        assertThat(rest.budget().contributions())
                .extracting(Contribution::standardUncertainty)
                .satisfiesExactly(
                        u -> assertThat(u)
                                .isCloseTo(
                                        Dither.halfWidth(Rest.atEnd(trace, X).scatter(), 0.1) / Math.sqrt(3),
                                        within(1e-12)),
                        u -> assertThat(u).isCloseTo(0.1 * Math.sqrt(0.3), within(1e-12)));
    }

    @Test
    void anAxisThatStillMovesHasNoRestPosition() {
        assertThat(Standstill.restPosition(TEN_MS.quantum(0.1).of(0, 0.2, t -> 100 * t), X)
                        .missing()
                        .orElseThrow())
                .isEqualTo("the axis still moved when the record ended, by 100° in a second; record until it stands");
    }

    @Test
    void fourSamplesShowNoRest() {
        assertThat(Standstill.restPosition(TEN_MS.values(-0.01, 3, 3, 3, 3, 3), X)
                        .missing()
                        .orElseThrow())
                .startsWith("the record holds 4 of the 5 samples");
    }

    // Source: mean of the values; JCGM 100:2008, F.2.2.1 and 4.2.2; four samples are worth one.
    @Test
    void theReportedSpeedIsTheMeanInTheWindow() {
        Sampled speed = TEN_MS.in(Unit.REVOLUTION_PER_MINUTE).quantum(0.6);
        Measurement mean = ReportedSpeed.of(speed.values(0, 0, -30, -59, -61, -59, -61, 0), X, 0.02, 0.05);
        assertThat(mean.value()).isEqualTo(-60);
        assertThat(mean.unit()).isEqualTo(Unit.REVOLUTION_PER_MINUTE);
        assertThat(mean.resolution()).isEqualTo(0.6);
        assertThat(mean.standardUncertainty()).isCloseTo(Math.sqrt(0.36 / 12 + 4.0 / 3), within(1e-12));
        assertThat(ReportedSpeed.of(speed.values(0, 1, 2), X, 0.02, 0.05).missing())
                .isPresent();
    }

    @Test
    void noiseCountsInTheDrift() {
        Measurement drift = Standstill.drift(TEN_MS.values(0, 1, -1, 1, -1, 1, -1, 1), X);
        assertThat(drift.value()).isZero();
        assertThat(drift.standardUncertainty()).isGreaterThan(1);
    }

    // Source: JCGM 100:2008, F.2.2.1 and E.4.3: 98, 100, 102, 100 have a deviation of √2 % of their mean, known
    // as three degrees of freedom know it.
    @Test
    void theBudgetOfRmsRipple() {
        Measurement ripple = SpeedRipple.rms(TEN_MS.quantum(0.5).values(0, 98, 100, 102, 100), X, 0, 1);
        assertThat(ripple.value()).isCloseTo(Math.sqrt(2), within(1e-12));
        assertThat(ripple.standardUncertainty())
                .isCloseTo(Math.hypot(0.5 / Math.sqrt(12), Math.sqrt(2) * DeviationSpread.relative(3)), within(1e-12));
        assertThat(ripple.budget().contributions())
                .extracting(Contribution::how)
                .containsExactly("one step of the speed signal is 0.5 % of the mean", "4 samples");
    }

    @Test
    void theFewestSamplesAndTheSlowestSpeedOfRipple() {
        assertThat(SpeedRipple.of(TEN_MS.values(0, 9, 10, 11), X, 0, 1).value()).isCloseTo(20, within(1e-12));
        assertThat(SpeedRipple.of(TEN_MS.quantum(1).values(0, 0, 1, 2), X, 0, 1).missing())
                .isPresent();
        assertThat(SpeedRipple.of(TEN_MS.quantum(1).values(0, 1, 1, 2), X, 0, 1).missing())
                .isEmpty();
    }

    // By hand: T² is 1, then 9, in two seconds from 1 s on: mean 5; the moment of change is known to a sample, |8|/2·2.
    // Source: JCGM 100:2008, 5.1.2 with ∂rms/∂∫ = 1/(2·rms·t), and 4.3.7.
    @Test
    void theMomentOfAChangeCountsInTheRmsTorque() {
        Measurement rms = Torque.rms(TEN_MS.points(1, 1, 3, 3), X);
        assertThat(rms.value()).isCloseTo(Math.sqrt(5), within(1e-12));
        assertThat(rms.standardUncertainty()).isCloseTo(8 / (2 * Math.sqrt(5) * 2) / Math.sqrt(3), within(1e-12));
    }

    // By hand: 0, 3, 0 about a straight line at 1: residuals −1, 2, −1, s = √6 with one degree of freedom; √2·s is √12.
    @Test
    void threeSamplesShowTheNoiseOfADrift() {
        Measurement drift = Standstill.drift(TEN_MS.values(0, 0, 3, 0), X);
        assertThat(drift.standardUncertainty()).isCloseTo(Math.sqrt(12), within(1e-9));
        Measurement two = Standstill.drift(TEN_MS.quantum(1).values(0, 4, 7), X);
        assertThat(two.value()).isEqualTo(3);
        assertThat(two.standardUncertainty()).isCloseTo(1 / Math.sqrt(6), within(1e-12));
        assertThat(Standstill.drift(TEN_MS.quantum(1).points(1, 4, 1, 5, 1, 6), X)
                        .standardUncertainty())
                .isCloseTo(1 / Math.sqrt(6), within(1e-12));
    }

    @Test
    void fiveSamplesAreARest() {
        assertThat(Standstill.restPosition(TEN_MS.values(0, 3, 3, 3, 3, 3), X).value())
                .isEqualTo(3);
    }

    @Test
    void twoSamplesAreAMeanSpeed() {
        assertThat(ReportedSpeed.of(TEN_MS.values(0, 3, 5), X, 0, 1).value()).isEqualTo(4);
    }

    @Test
    void theFirstOfTwoEqualPeaksIsMarked() {
        assertThat(Torque.peak(TEN_MS.values(0, 1, -4, 2, 4, 0), X)
                        .marks()
                        .get(0)
                        .seconds())
                .isEqualTo(0.01);
    }

    // Constructed: related noise, which the sentence beside the contribution says; alternating noise is not related.
    @Test
    void theBudgetSaysWhatRelatedSamplesAreWorth() {
        Trace related = TEN_MS.of(0, 1, t -> Math.sin(2 * Math.PI * t));
        assertThat(FollowingError.steady(related, X, 0, 1)
                        .budget()
                        .contributions()
                        .get(0)
                        .how())
                .isEqualTo("s = 0.7071° of 101 samples, which are worth a single one");
        Trace alternating = TEN_MS.values(0, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1);
        assertThat(FollowingError.steady(alternating, X, 0, 1)
                        .budget()
                        .contributions()
                        .get(0)
                        .how())
                .isEqualTo("s = 1.044° of 12 samples");
    }
}
