package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class TimesTest {

    // Source: definition of the nearest-rank percentile: the value at rank ceil(P/100 * N) of the sorted list
    @Test
    void quantilesAreByNearestRank() {
        Times times = Times.of(new long[] {50, 15, 35, 20, 40});
        assertThat(times.quantile(0.3)).isEqualTo(20);
        assertThat(times.quantile(0.4)).isEqualTo(20);
        assertThat(times.quantile(0.5)).isEqualTo(35);
        assertThat(times.quantile(1)).isEqualTo(50);
        assertThat(times.worst()).isEqualTo(50);
        Times thousand = Times.of(LongStream.rangeClosed(1, 1000).toArray());
        assertThat(thousand.quantile(0.99)).isEqualTo(990);
    }
}
