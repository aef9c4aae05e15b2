package org.axtrial.time;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.axtrial.time.AtOnce.Task;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class AtOnceTest {

    private final List<String> seen = Collections.synchronizedList(new ArrayList<>());

    private Task ticking(String name, VirtualTime clock, long period, int times) {
        return new Task(name, clock, () -> {
            long next = clock.nanos();
            for (int i = 0; i < times; i++) {
                seen.add(name + "@" + clock.instant().toEpochMilli());
                next += period * 1_000_000;
                clock.sleepUntil(next);
            }
        });
    }

    @RepeatedTest(20)
    void virtualThreadsTakeTurnsInTheOrderOfTheirTime() throws Exception {
        VirtualTime a = new VirtualTime(Instant.EPOCH);
        VirtualTime b = new VirtualTime(Instant.EPOCH);

        AtOnce.run(List.of(ticking("A", a, 10, 4), ticking("B", b, 15, 3)));

        assertThat(seen).containsExactly("A@0", "B@0", "A@10", "B@15", "A@20", "A@30", "B@30");
    }

    @RepeatedTest(20)
    void oneClockMayBelongToSeveral() throws Exception {
        VirtualTime both = new VirtualTime(Instant.EPOCH);

        AtOnce.run(List.of(ticking("A", both, 10, 3), ticking("B", both, 15, 2)));

        assertThat(seen).containsExactly("A@0", "B@0", "A@10", "B@15", "A@20");
        assertThat(both.instant()).isEqualTo(Instant.EPOCH.plusMillis(30));
    }

    @Test
    void clocksAreBroughtToTheLatest() throws Exception {
        VirtualTime a = new VirtualTime(Instant.EPOCH);
        VirtualTime b = new VirtualTime(Instant.EPOCH.plusSeconds(5));
        a.advance(Duration.ofSeconds(7).toNanos());

        AtOnce.align(List.of(a, b, SystemTime.INSTANCE));

        assertThat(a.instant()).isEqualTo(b.instant()).isEqualTo(Instant.EPOCH.plusSeconds(7));
    }

    @Test
    void oneThatFailsDoesNotKeepTheOthers() throws Exception {
        VirtualTime a = new VirtualTime(Instant.EPOCH);
        IllegalStateException broken = new IllegalStateException("broken");

        List<Optional<Throwable>> ends = AtOnce.run(List.of(
                new Task("A", a, () -> {
                    throw broken;
                }),
                ticking("B", new VirtualTime(Instant.EPOCH), 10, 3)));

        assertThat(ends).containsExactly(Optional.of(broken), Optional.empty());
        assertThat(seen).hasSize(3);
    }

    @Test
    void realAndVirtualTimeDoNotWaitForEachOther() throws Exception {
        CountDownLatch done = new CountDownLatch(1);

        AtOnce.run(List.of(
                new Task("real", SystemTime.INSTANCE, done::await),
                new Task("other", SystemTime.INSTANCE, done::countDown)));

        assertThat(done.getCount()).isZero();
    }

    @Test
    void anInterruptEndsAllOfThem() throws Exception {
        CountDownLatch waiting = new CountDownLatch(2);
        CountDownLatch never = new CountDownLatch(1);
        List<Throwable> ends = Collections.synchronizedList(new ArrayList<>());
        Thread caller = new Thread(() -> {
            AtOnce.Work work = () -> {
                waiting.countDown();
                try {
                    never.await();
                } finally {
                    seen.add("ended");
                }
            };
            try {
                AtOnce.run(List.of(new Task("A", SystemTime.INSTANCE, work), new Task("B", SystemTime.INSTANCE, work)));
            } catch (InterruptedException e) {
                ends.add(e);
            }
        });
        caller.start();
        waiting.await();
        caller.interrupt();
        caller.join();

        assertThat(seen).hasSize(2);
        assertThat(ends).hasSize(1);
    }

    @Test
    void whatIsUrgentIsDoneToItsEndWhateverHappens() {
        Map<String, Runnable> works = new LinkedHashMap<>();
        CountDownLatch both = new CountDownLatch(2);
        for (String name : List.of("A", "B")) {
            works.put(name, () -> {
                both.countDown();
                try {
                    both.await();
                    seen.add(Thread.currentThread().getName());
                } catch (InterruptedException e) {
                    throw new AssertionError(e);
                }
            });
        }
        Thread.currentThread().interrupt();

        AtOnce.urgently(works);

        assertThat(Thread.interrupted()).as("the interrupt is kept").isTrue();
        assertThat(seen).containsExactlyInAnyOrder("A", "B");
    }

    @Test
    void aThreadThatWaitsForItsTurnCanBeInterrupted() {
        VirtualTime a = new VirtualTime(Instant.EPOCH);
        VirtualTime b = new VirtualTime(Instant.EPOCH);
        Thread[] first = new Thread[1];

        assertThatThrownBy(() -> {
                    List<Optional<Throwable>> ends = AtOnce.run(List.of(
                            new Task("A", a, () -> {
                                first[0] = Thread.currentThread();
                                a.sleepUntil(Long.MAX_VALUE / 4);
                            }),
                            new Task("B", b, () -> {
                                b.sleepUntil(1);
                                first[0].interrupt();
                                b.sleepUntil(2);
                            })));
                    throw ends.get(0).orElseThrow();
                })
                .isInstanceOf(InterruptedException.class);
    }
}
