package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Constructed: times of 1 … 200 ms, whose quantiles are told by counting. */
@Timeout(10)
class ReplyTimesTest {

    private static final List<Double> TIMES =
            IntStream.rangeClosed(1, 200).mapToObj(i -> (201 - i) * 1e-3).toList();

    @Test
    void quantilesAreTheSmallestTimesThatTheShareDidNotExceed() {
        assertThat(ReplyTimes.quantile(TIMES, 0.5).value()).isEqualTo(100);
        assertThat(ReplyTimes.quantile(TIMES, 0.99).value()).isEqualTo(198);
        assertThat(ReplyTimes.quantile(TIMES, 1).value()).isEqualTo(200);
        assertThat(ReplyTimes.quantile(TIMES, 0.99).source()).isEqualTo(Source.RUNNER);
    }

    @Test
    void nothingIsMadeOfNoTimes() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ReplyTimes.quantile(List.of(), 0.5))
                .withMessageContaining("0 times");
        assertThatIllegalArgumentException().isThrownBy(() -> ReplyTimes.quantile(TIMES, 0));
    }
}
