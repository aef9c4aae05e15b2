package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

/** Speeds of entry on motions whose slope is known. */
class EntrySpeedTest {

    private static final Sampled TEN_MS = Sampled.every(0.01);

    private static Trace trace(double quantum, int n, IntToDoubleFunction x) {
        return TEN_MS.quantum(quantum)
                .values(0, IntStream.range(0, n).mapToDouble(x).toArray());
    }

    @Test
    void withoutStepsAndNoiseTheTwoSamplesAroundTheEntrySay() {
        EntrySpeed entry = EntrySpeed.at(TEN_MS.values(0, 0, 4, 9, 10, 10, 10, 10, 10), X, 1);
        assertThat(entry.speed()).isCloseTo(500, within(1e-9));
        assertThat(entry.noise()).isZero();
    }

    // Constructed: one step of 0.5 for every two samples, 25 in a second. Four steps are looked for on either side:
    // from
    // 5 down to 3 (samples 20 and 13) and from 4.5 up to 6.5 (19 and 26), 3.5 in 130 ms. Before and after it stands.
    @Test
    void aSlowTailIsTakenOverFourStepsOnEitherSide() {
        Trace trace = trace(0.5, 100, k -> 0.5 * Math.max(5, Math.min(14, k / 2)));
        EntrySpeed entry = EntrySpeed.at(trace, X, 19);
        assertThat(entry.speed()).isCloseTo(3.5 / 0.13, within(1e-9));
        assertThat(entry.quantum()).isEqualTo(0.5);
    }

    @Test
    void aRecordThatBeginsShortBeforeTheEntryIsUsedFromItsBegin() {
        Trace trace = trace(1, 80, k -> Math.min(20, 8 + k));
        assertThat(EntrySpeed.at(trace, X, 1).speed()).isCloseTo(100, within(1e-9));
    }

    // The time at rest must not slow it down: 6 to 10 in four intervals, and not 6 to 11 in seventy.
    @Test
    void theTimeAtRestDoesNotCount() {
        Trace trace = trace(1, 80, k -> Math.min(11, 5 + k));
        assertThat(EntrySpeed.at(trace, X, 4).speed()).isCloseTo(100, within(1e-9));
    }

    // Constructed: x = k²/10 has the slope 190 in the middle of samples 9 and 10. The readings at rest are ± 0.5 about
    // their mean, s = 0.506 for the later half of them, a little more about a straight line: four of them reach two
    // samples to either
    // side.
    @Test
    void noiseAtRestWidensTheLook() {
        Trace trace = trace(0, 100, k -> k <= 14 ? 0.1 * k * k : k % 2 == 0 ? 20 : 21);
        EntrySpeed entry = EntrySpeed.at(trace, X, 9);
        assertThat(entry.noise()).isBetween(0.505, 0.512);
        assertThat(entry.speed()).isCloseTo(190, within(1e-9));
    }

    @Test
    void twoSamplesOfOneInstantHaveNoSpeed() {
        Trace trace = TEN_MS.points(0, 0, 0.01, 5, 0.01, 10, 0.02, 10, 0.03, 10, 0.04, 10, 0.05, 10);
        assertThat(EntrySpeed.at(trace, X, 1).speed()).isZero();
    }

    // Source: JCGM 100:2008, 5.1.2 with ∂t/∂x = 1/v, and 4.3.7 for half a step.
    @Test
    void stepAndNoiseBecomeTimesByTheSpeed() {
        Draft draft = new Draft("settling time", "", Unit.SECOND);
        new EntrySpeed(200, 1, 0.5).contribute(draft, 0);
        List<Contribution> parts = draft.value(0).budget().contributions();
        assertThat(parts)
                .extracting(Contribution::name)
                .containsExactly("quantisation at the edge of the window", "noise at the edge of the window");
        assertThat(parts.get(0).standardUncertainty()).isCloseTo(0.0025 / Math.sqrt(3), within(1e-15));
        assertThat(parts.get(1).standardUncertainty()).isCloseTo(0.0025, within(1e-15));
        assertThat(parts.get(1).degreesOfFreedom()).isInfinite();
    }

    // Source: as above; the rest position of a stop is itself known to half a step only.
    @Test
    void anUncertainTargetBecomesATimeToo() {
        Draft draft = new Draft("stopping time", "", Unit.SECOND);
        new EntrySpeed(200, 0, 0).contribute(draft, 0.5);
        List<Contribution> parts = draft.value(0).budget().contributions();
        assertThat(parts).extracting(Contribution::name).containsExactly("position at rest");
        assertThat(parts.get(0).standardUncertainty()).isCloseTo(0.0025 / Math.sqrt(3), within(1e-15));
    }

    @Test
    void withoutSpeedNothingIsAdded() {
        Draft draft = new Draft("settling time", "", Unit.SECOND);
        new EntrySpeed(0, 1, 0.5).contribute(draft, 0);
        assertThat(draft.value(0).budget().isEmpty()).isTrue();
    }
}
