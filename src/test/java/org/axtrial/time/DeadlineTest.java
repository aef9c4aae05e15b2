package org.axtrial.time;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class DeadlineTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);

    @Test
    void countsDownAndPassesAtTheMomentItself() {
        time.advance(7);
        Deadline deadline = Deadline.in(time, Duration.ofNanos(100));
        assertThat(deadline.leftNanos()).isEqualTo(100);
        time.advance(99);
        assertThat(deadline.isPassed()).isFalse();
        time.advance(1);
        assertThat(deadline.isPassed()).isTrue();
        time.advance(1);
        assertThat(deadline.leftNanos()).isEqualTo(-1);
    }

    @Test
    void noTimeAtAllHasPassedAtOnce() {
        assertThat(Deadline.in(time, Duration.ZERO).isPassed()).isTrue();
    }

    @Test
    void worksWhereTheClockWrapsAround() {
        // A monotonic clock has an arbitrary zero and may wrap; only differences count.
        TimeSource nearTheEnd = new TimeSource() {
            @Override
            public long nanos() {
                return Long.MAX_VALUE - 10;
            }

            @Override
            public Instant instant() {
                return Instant.EPOCH;
            }

            @Override
            public void sleepUntil(long nanos) {}

            @Override
            public boolean isVirtual() {
                return true;
            }
        };
        Deadline deadline = Deadline.in(nearTheEnd, Duration.ofNanos(100));
        assertThat(deadline.leftNanos()).isEqualTo(100);
        assertThat(deadline.isPassed()).isFalse();
    }
}
