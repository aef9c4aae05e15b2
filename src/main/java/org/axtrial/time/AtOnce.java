package org.axtrial.time;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/**
 * Does several things at once, each in a thread of its own and by a clock of its own. In virtual time the threads take
 * turns, the one that wakes first going first, so that what comes of it repeats to the bit.
 */
public final class AtOnce {

    private AtOnce() {}

    /** Something to do. */
    @FunctionalInterface
    public interface Work {
        void run() throws InterruptedException;
    }

    /**
     * One of the things.
     *
     * @param name of its thread
     * @param time the clock that it waits by
     */
    public record Task(String name, TimeSource time, Work work) {}

    /**
     * Brings virtual clocks to the latest of them, so that what happens at once has one time. Real clocks agree already.
     */
    public static void align(List<TimeSource> clocks) {
        List<VirtualTime> virtual = clocks.stream()
                .filter(VirtualTime.class::isInstance)
                .map(VirtualTime.class::cast)
                .toList();
        long latest = virtual.stream()
                .mapToLong(clock -> since(clock.instant()))
                .max()
                .orElse(0);
        virtual.forEach(clock -> clock.advance(Math.max(0, latest - since(clock.instant()))));
    }

    /**
     * Does all of them and returns when each has ended.
     *
     * @return what each ended by, in the order of the tasks; empty for one that simply ended
     * @throws InterruptedException if the caller was interrupted; the tasks were interrupted then and have all ended
     */
    public static List<Optional<Throwable>> run(List<Task> tasks) throws InterruptedException {
        align(tasks.stream().map(Task::time).toList());
        Turns turns = new Turns(tasks.size());
        List<AtomicReference<@Nullable Throwable>> ends = new ArrayList<>();
        List<Thread> threads = new ArrayList<>();
        for (Task task : tasks) {
            AtomicReference<@Nullable Throwable> end = new AtomicReference<>();
            ends.add(end);
            threads.add(turns.thread(threads.size(), task, end));
        }
        threads.forEach(Thread::start);
        boolean interrupted = awaitAll(threads, true);
        if (interrupted) {
            throw new InterruptedException("interrupted while several things were done at once");
        }
        return ends.stream().map(end -> Optional.ofNullable(end.get())).toList();
    }

    /**
     * Does all of them side by side, nobody waiting for a turn, and returns when each has ended: for what is more urgent than
     * order. An interrupt cuts nothing short and is kept for the caller.
     *
     * @param works by the names of their threads
     */
    public static void urgently(Map<String, Runnable> works) {
        List<Thread> threads = new ArrayList<>();
        works.forEach((name, work) -> {
            Thread thread = new Thread(work, name);
            thread.setDaemon(true);
            thread.start();
            threads.add(thread);
        });
        boolean interrupted = awaitAll(threads, false);
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    /**
     * Waits for all of them whatever happens.
     *
     * @param passOn whether an interrupt of the caller reaches them
     * @return whether the caller was interrupted meanwhile
     */
    private static boolean awaitAll(List<Thread> threads, boolean passOn) {
        boolean interrupted = false;
        for (Thread thread : threads) {
            while (thread.isAlive()) {
                try {
                    thread.join();
                } catch (InterruptedException e) {
                    interrupted = true;
                    if (passOn) {
                        threads.forEach(Thread::interrupt);
                    }
                }
            }
        }
        return interrupted;
    }

    static long since(Instant at) {
        return ChronoUnit.NANOS.between(Instant.EPOCH, at);
    }
}
