package org.axtrial.time;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/**
 * Lets threads that wait in virtual time go on one at a time: whoever wakes first, and of several the first in order. A
 * thread goes on until it waits again or ends.
 */
final class Turns {

    /** Nobody tells that a thread has come to wait for a lock, so it is looked for this often. */
    private static final long LOOK_MILLIS = 20;
    /** So many looks in a row: locks of the evidence are held for moments. */
    private static final int LOOKS = 25;

    private final int expected;
    private final List<Member> members = new ArrayList<>();
    /** When each thread that waits wants to wake, nanoseconds since 1970 of its own clock, by its place in the order. */
    private final Map<Integer, Long> wakes = new TreeMap<>();

    private int ended;

    /** @param expected number of threads; none goes on before all are there */
    Turns(int expected) {
        this.expected = expected;
    }

    /** A thread of this group. */
    final class Member extends Thread {

        private final int place;
        private final AtOnce.Task task;
        private final AtomicReference<@Nullable Throwable> end;
        /** Not while it waits for its turn, where it may wait for the lock of the group itself. */
        private volatile boolean atWork;

        private Member(int place, AtOnce.Task task, AtomicReference<@Nullable Throwable> end) {
            super(task.name());
            setDaemon(true);
            this.place = place;
            this.task = task;
            this.end = end;
        }

        @Override
        public void run() {
            try {
                if (task.time() instanceof VirtualTime clock) {
                    awaitTurn(clock, clock.nanos());
                }
                atWork = true;
                task.work().run();
            } catch (Throwable e) {
                // Whatever it is, the one who waits for all of them must learn of it.
                end.set(e);
            } finally {
                atWork = false;
                leave();
            }
        }

        /** Waits until nobody else of the group wakes earlier. */
        void awaitTurn(VirtualTime clock, long untilNanos) throws InterruptedException {
            long wake = AtOnce.since(clock.instant()) + Math.max(0, untilNanos - clock.nanos());
            atWork = false;
            synchronized (Turns.this) {
                wakes.put(place, wake);
                Turns.this.notifyAll();
                try {
                    int locked = 0;
                    while ((locked < LOOKS && !allWait()) || first() != place) {
                        Turns.this.wait(LOOK_MILLIS);
                        locked = othersAwaitLocks() ? locked + 1 : 0;
                    }
                } finally {
                    wakes.remove(place);
                    atWork = true;
                }
            }
        }
    }

    Thread thread(int place, AtOnce.Task task, AtomicReference<@Nullable Throwable> end) {
        Member member = new Member(place, task, end);
        members.add(member);
        return member;
    }

    private synchronized void leave() {
        ended++;
        notifyAll();
    }

    /** Whether whoever is at work waits for a lock, which one of those that wait for their turn may hold. */
    private boolean othersAwaitLocks() {
        return members.stream()
                .filter(member -> !wakes.containsKey(member.place) && member.getState() != Thread.State.TERMINATED)
                .allMatch(member -> member.atWork && member.getState() == Thread.State.BLOCKED);
    }

    private boolean allWait() {
        return wakes.size() + ended == expected;
    }

    /** Who of those that wait wakes first. */
    private int first() {
        int first = -1;
        for (Map.Entry<Integer, Long> waiting : wakes.entrySet()) {
            if (first < 0 || waiting.getValue() < wakes.getOrDefault(first, Long.MAX_VALUE)) {
                first = waiting.getKey();
            }
        }
        return first;
    }
}
