package org.axtrial.time;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class VirtualTimeTest {

    private static final Instant START = Instant.parse("2026-01-01T08:00:00Z");

    private final VirtualTime time = new VirtualTime(START);

    @Test
    void beginsAtZeroAndSaysThatItIsVirtual() {
        assertThat(time.nanos()).isZero();
        assertThat(time.instant()).isEqualTo(START);
        assertThat(time.isVirtual()).isTrue();
    }

    @Test
    void waitingMovesBothClocks() throws InterruptedException {
        time.sleepUntil(1_500_000_000L);
        assertThat(time.nanos()).isEqualTo(1_500_000_000L);
        assertThat(time.instant()).isEqualTo(Instant.parse("2026-01-01T08:00:01.5Z"));
    }

    @Test
    void aMomentThatHasPassedDoesNotTurnTimeBack() throws InterruptedException {
        time.sleepUntil(2_000);
        time.sleepUntil(1_000);
        assertThat(time.nanos()).isEqualTo(2_000);
    }

    @Test
    void advancingAddsAndNeverSubtracts() {
        time.advance(10);
        time.advance(0);
        time.advance(5);
        assertThat(time.nanos()).isEqualTo(15);
        assertThatThrownBy(() -> time.advance(-1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("time cannot run backwards: -1 ns");
        assertThat(time.nanos()).isEqualTo(15);
    }

    @Test
    void anInterruptedThreadDoesNotWait() {
        Thread.currentThread().interrupt();
        assertThatThrownBy(() -> time.sleepUntil(1_000)).isInstanceOf(InterruptedException.class);
        assertThat(Thread.currentThread().isInterrupted()).isFalse();
        assertThat(time.nanos()).isZero();
    }
}
