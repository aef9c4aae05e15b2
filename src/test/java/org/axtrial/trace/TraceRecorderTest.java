package org.axtrial.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TraceRecorderTest {

    private static final Channel POSITION = new Channel("position", Unit.DEGREE, 0.01);
    private static final Channel TORQUE = new Channel("torque", Unit.PERCENT, 0.1);

    private final TraceRecorder recorder = new TraceRecorder(List.of(POSITION, TORQUE), 1_000_000);

    @Test
    void growsPastItsFirstRoomAndKeepsEverySample() {
        for (int i = 0; i < 3000; i++) {
            recorder.add(i * 1000L, i * 1000L + 10, new double[] {i, -i});
        }
        Trace trace = recorder.trace();
        assertThat(recorder.size()).isEqualTo(3000);
        assertThat(trace.size()).isEqualTo(3000);
        for (int i = 0; i < 3000; i++) {
            assertThat(trace.value("position", i)).isEqualTo(i);
            assertThat(trace.value("torque", i)).isEqualTo(-i);
        }
    }

    @Test
    void aTraceDoesNotChangeWhenRecordingGoesOn() {
        recorder.add(0, 1, new double[] {1, 2});
        Trace early = recorder.trace();
        recorder.add(10, 11, new double[] {3, 4});
        assertThat(early.size()).isEqualTo(1);
        early.values("position")[0] = 99;
        assertThat(early.value("position", 0)).isEqualTo(1);
        assertThat(recorder.trace().size()).isEqualTo(2);
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void aValueThatIsNotFiniteIsRefusedAndLeavesNoTrace(double value) {
        assertThatThrownBy(() -> recorder.add(0, 1, new double[] {0, value}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("torque is not finite: " + value);
        assertThat(recorder.size()).isZero();
    }

    @Test
    void aReplyBeforeItsRequestOrAnOlderSampleIsRefused() {
        recorder.add(100, 200, new double[] {0, 0});
        assertThatThrownBy(() -> recorder.add(300, 299, new double[] {0, 0}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> recorder.add(99, 300, new double[] {0, 0}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("samples must come in order of time");
        assertThat(recorder.size()).isEqualTo(1);
    }

    @Test
    void aRowOfTheWrongWidthIsRefused() {
        assertThatThrownBy(() -> recorder.add(0, 1, new double[] {0}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a row needs 2 values, got 1");
    }

    @ParameterizedTest
    @ValueSource(longs = {0, -1})
    void aPeriodIsPositive(long period) {
        assertThatThrownBy(() -> new TraceRecorder(List.of(POSITION), period))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the sample period must be positive, got " + period + " ns");
    }

    @Test
    void withoutAnOriginTheFirstRequestIsTimeZero() {
        recorder.add(500, 700, new double[] {0, 0});
        assertThat(recorder.trace().originNanos()).isEqualTo(500);
        recorder.origin(400);
        assertThat(recorder.trace().originNanos()).isEqualTo(400);
    }

    @Test
    void nothingRecordedIsAnEmptyTrace() {
        Trace trace = recorder.trace();
        assertThat(trace.size()).isZero();
        assertThat(trace.worstPeriod()).isEmpty();
        assertThat(trace.meanPeriod()).isEmpty();
        assertThat(trace.between(0, 1).size()).isZero();
    }
}
