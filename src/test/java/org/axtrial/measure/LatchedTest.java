package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.LatchedPeak;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

/** A latched peak is preferred to the samples, says so, and decides nothing where the samples contradict it. */
class LatchedTest {

    private static final Trace SAMPLES =
            Sampled.every(0.01).in(Unit.PERCENT).quantum(0.1).values(-0.02, 1, 1, 10, 40, -55, 20, 2);

    private static Trace latched(double quantum, double cleared, double value) {
        return SAMPLES.withLatched(
                List.of(new LatchedPeak(new Channel(Sampled.X, Unit.PERCENT, quantum), cleared, value)));
    }

    private static Measurement peak(Trace trace) {
        return Torque.peak(trace, Sampled.X);
    }

    @Test
    void isPreferredAndLabelledAndTheSampledPeakStandsBesideIt() {
        Measurement measured = peak(latched(0.5, 1, 72));

        assertThat(measured.value()).isEqualTo(72);
        assertThat(measured.source()).isEqualTo(Source.LATCHED);
        assertThat(measured.source().printed()).isEqualTo("latched by the drive");
        assertThat(measured.definition()).contains("that the drive latched");
        assertThat(measured.resolution()).isEqualTo(0.5);
        assertThat(measured.samplePeriod()).isEmpty();
        assertThat(measured.reservation()).isEmpty();
        assertThat(measured.budget().contributions()).hasSize(1);
        assertThat(measured.budget().contributions().get(0).how()).isEqualTo("one step is 0.5 %; largest sample 55 %");
        assertThat(measured.marks()).containsExactly(new Mark("largest sample 55 %", 0.02));
        // Source: JCGM 100:2008, F.2.2.1, a digital reading of step q has u = q/√12 = 0.29·q.
        assertThat(measured.standardUncertainty()).isCloseTo(0.29 * 0.5, within(0.002));
    }

    @Test
    void withoutALatchTheSamplesTellAndSaySo() {
        Measurement measured = peak(SAMPLES);

        assertThat(measured.value()).isEqualTo(55);
        assertThat(measured.source().printed()).isEqualTo("drive-reported");
        assertThat(measured.budget().contributions())
                .extracting(Contribution::name)
                .contains("peak between samples");
    }

    @Test
    void ofAnotherSignalIsNotTaken() {
        Trace other = SAMPLES.withLatched(
                List.of(new LatchedPeak(new Channel("followingError", Unit.REVOLUTION, 0.1), 0, 72)));
        assertThat(peak(other)).isEqualTo(peak(SAMPLES));
    }

    @Test
    void belowASampleByMoreThanItsStepDecidesNothing() {
        assertThat(peak(latched(0.5, 1, 54.5)).reservation()).isEmpty();

        Measurement low = peak(latched(0.5, 1, 54.4));
        assertThat(low.reservation())
                .hasValue(
                        "the drive latched 54.4 % and the largest sample is 55 %, which a latch cannot miss; look at the"
                                + " address, scale and unit of the latch in the drive description");
        Judgement judged =
                Judge.judge(low, new Criterion.AtMost(Quantity.of(60, Unit.PERCENT)), Conversion.SAME_DIMENSION);
        assertThat(judged.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judged.reason()).contains("which a latch cannot miss");
    }

    @Test
    void ofAnEarlierMotionDecidesNothing() {
        assertThat(peak(latched(0.5, 90, 90)).reservation().orElseThrow())
                .isEqualTo(
                        "the drive latched 90 % and the largest sample is 55 %, but the latch showed the same before the"
                                + " command, so it may be of an earlier motion; look at clearPeaks in the drive description");
        // A latch that has grown since, or that the samples agree with, is of this motion.
        assertThat(peak(latched(0.5, 90, 90.5)).reservation()).isEmpty();
        assertThat(peak(latched(0.5, 55, 55)).reservation()).isEmpty();
    }

    /** A hanging load that is let down takes less torque than to hold it. */
    @Test
    void ofTheHoldingTorqueIsNoEarlierMotion() {
        Trace down = Sampled.every(0.01).in(Unit.PERCENT).quantum(0.1).values(-0.02, 30.1, 30.1, 28, 27, 28);
        Channel latch = new Channel(Sampled.X, Unit.PERCENT, 0.1);

        assertThat(peak(down.withLatched(List.of(new LatchedPeak(latch, 30.1, 30.1))))
                        .reservation())
                .isEmpty();
        assertThat(peak(down.withLatched(List.of(new LatchedPeak(latch, 31, 31))))
                        .reservation())
                .isPresent();
    }

    @Test
    void withoutASampleToHoldItAgainstThereIsNoValue() {
        Trace before =
                SAMPLES.between(-1, -0.001).withLatched(latched(0.5, 1, 72).latched());
        assertThat(peak(before).missing()).isPresent();
    }

    @Test
    void belongsToTheWholeMotionAndToNoPartOfIt() {
        assertThat(latched(0.5, 1, 72).between(0, 1).latched()).isEmpty();
        assertThat(latched(0.5, 1, 72).withZeroAt(0.02).latched()).isEmpty();
    }
}
