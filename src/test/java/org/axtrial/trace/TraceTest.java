package org.axtrial.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TraceTest {

    private static final long MS = 1_000_000;

    /** Samples sent at −20, −10, 0, 10, 20, 50 ms after the command, each with a round trip of 2 ms. */
    private static Trace trace() {
        TraceRecorder recorder = new TraceRecorder(List.of(new Channel("position", Unit.DEGREE, 0.01)), 10 * MS);
        recorder.origin(1_000 * MS);
        long[] sent = {980, 990, 1000, 1010, 1020, 1050};
        for (int i = 0; i < sent.length; i++) {
            recorder.add(sent[i] * MS, (sent[i] + 2) * MS, new double[] {i});
        }
        return recorder.trace();
    }

    @Test
    void aSampleLiesInTheMiddleOfItsRoundTrip() {
        assertThat(trace().times())
                .containsExactly(new double[] {-0.019, -0.009, 0.001, 0.011, 0.021, 0.051}, within(1e-15));
        assertThat(trace().timeHalfWidth(3)).isEqualTo(0.001);
        assertThat(trace().orderedPeriod()).isEqualTo(0.01);
    }

    @Test
    void theWorstPeriodIsTheLargestGap() {
        assertThat(trace().worstPeriod().orElseThrow()).isCloseTo(0.03, within(1e-15));
        assertThat(trace().meanPeriod().orElseThrow()).isCloseTo(0.014, within(1e-15));
        assertThat(trace().between(-1, 0.03).worstPeriod().orElseThrow()).isCloseTo(0.01, within(1e-15));
    }

    @Test
    void aPartKeepsItsEndsAndTimeZero() {
        Trace part = trace().between(0.001, 0.021);
        assertThat(part.values("position")).containsExactly(2, 3, 4);
        assertThat(part.time(0)).isEqualTo(0.001);
        assertThat(part.originNanos()).isEqualTo(1_000 * MS);
        assertThat(trace().between(0.0011, 0.0209).values("position")).containsExactly(3);
    }

    @Test
    void aPartOutsideOrTurnedRoundIsEmpty() {
        assertThat(trace().between(1, 2).size()).isZero();
        assertThat(trace().between(-2, -1).size()).isZero();
        assertThat(trace().between(0.02, 0.0).size()).isZero();
    }

    @Property
    void aPartHoldsExactlyTheSamplesWithinItsEnds(
            @ForAll @DoubleRange(min = -0.1, max = 0.1) @Scale(12) double from,
            @ForAll @DoubleRange(min = -0.1, max = 0.1) @Scale(12) double to) {
        Trace whole = trace();
        long expected = java.util.Arrays.stream(whole.times())
                .filter(time -> time >= from && time <= to)
                .count();
        assertThat(whole.between(from, to).size()).isEqualTo((int) expected);
    }

    @Test
    void theZeroOfTheTimeAxisMoves() {
        Trace whole = trace();
        Trace moved = whole.withZeroAt(0.01);
        for (int i = 0; i < whole.size(); i++) {
            assertThat(moved.time(i)).isEqualTo(whole.time(i) - 0.01, org.assertj.core.api.Assertions.within(1e-12));
            assertThat(moved.value("position", i)).isEqualTo(whole.value("position", i));
        }
        assertThat(moved.originNanos()).isEqualTo(whole.originNanos() + 10_000_000);
    }

    @Test
    void aMissingChannelIsNamedWithThoseThatAreThere() {
        assertThat(trace().has("speed")).isFalse();
        assertThatThrownBy(() -> trace().value("speed", 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the trace has no channel \"speed\"; it has [position]");
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1, Double.NaN, Double.POSITIVE_INFINITY})
    void aQuantumIsFiniteAndNotNegative(double quantum) {
        assertThatThrownBy(() -> new Channel("position", Unit.DEGREE, quantum))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("position: quantum must be finite and not negative, got " + quantum);
    }
}
