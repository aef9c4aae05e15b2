package org.axtrial.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

/** Where samples count as missing. */
class GapTest {

    @Test
    void threePeriodsAreAGapAndTwoAreLate() {
        assertThat(Gap.in(new double[] {0, 1, 2, 5.5, 6.5, 8.5, 9.5, 10.5, 11.5}))
                .containsExactly(new Gap(2, 5.5));
        assertThat(Gap.in(new double[] {0, 1, 2, 5, 6, 7, 8})).isEmpty();
    }

    @Test
    void evenlySlowSamplesHaveNone() {
        assertThat(Gap.in(new double[] {0, 100, 200, 300})).isEmpty();
        assertThat(Gap.in(new double[] {7})).isEmpty();
        assertThat(Gap.in(new double[0])).isEmpty();
    }

    @Test
    void theCommandTakesTheLinkForAMoment() {
        assertThat(new Gap(-0.02, 0.001).holdsCommand()).isTrue();
        assertThat(new Gap(0.1, 0.2).holdsCommand()).isFalse();
        assertThat(new Gap(-0.2, -0.1).holdsCommand()).isFalse();
        assertThat(new Gap(0.1, 0.4).length()).isCloseTo(0.3, within(1e-12));
    }

    @Test
    void aTraceTellsItsGaps() {
        TraceRecorder recorder = new TraceRecorder(List.of(new Channel("x", Unit.COUNT, 1)), 10_000_000);
        recorder.origin(0);
        for (long at : new long[] {0, 10, 20, 30, 90, 100}) {
            recorder.add(at * 1_000_000, at * 1_000_000, new double[] {at});
        }
        assertThat(recorder.trace().gaps()).containsExactly(new Gap(0.03, 0.09));
    }
}
