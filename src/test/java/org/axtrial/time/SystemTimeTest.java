package org.axtrial.time;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class SystemTimeTest {

    private final SystemTime time = SystemTime.INSTANCE;

    @Test
    void neverRunsBackwards() {
        long last = time.nanos();
        for (int i = 0; i < 1000; i++) {
            long now = time.nanos();
            assertThat(now - last).isNotNegative();
            last = now;
        }
        assertThat(time.isVirtual()).isFalse();
    }

    @Test
    void waitsAtLeastUntilTheMoment() throws InterruptedException {
        long until = time.nanos() + 2_000_000;
        time.sleepUntil(until);
        assertThat(time.nanos() - until).isNotNegative();
    }

    @Test
    void aMomentThatHasPassedReturnsButStillHearsAnInterrupt() throws InterruptedException {
        time.sleepUntil(time.nanos() - 1);
        Thread.currentThread().interrupt();
        assertThatThrownBy(() -> time.sleepUntil(time.nanos() - 1)).isInstanceOf(InterruptedException.class);
        assertThat(Thread.currentThread().isInterrupted()).isFalse();
    }

    @Test
    void anInterruptEndsALongWait() throws InterruptedException {
        CountDownLatch started = new CountDownLatch(1);
        AtomicReference<@Nullable Throwable> ended = new AtomicReference<>();
        Thread waiter = new Thread(() -> {
            started.countDown();
            try {
                time.sleepUntil(time.nanos() + Duration.ofHours(1).toNanos());
            } catch (InterruptedException e) {
                ended.set(e);
            }
        });
        waiter.start();
        started.await();
        waiter.interrupt();
        waiter.join();
        assertThat(ended.get()).isInstanceOf(InterruptedException.class);
    }
}
