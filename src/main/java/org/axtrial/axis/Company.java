package org.axtrial.axis;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/**
 * Axes that move at once: none starts before all are ready, all are watched until the last is done, and what stops one
 * stops all of them. Used by the threads of its axes.
 */
public final class Company {

    /** An axis that moves by itself: nobody to wait for, nobody to stop. */
    static final Company ALONE = new Company(0);

    /** What the others of a company can do to an axis of it. */
    @FunctionalInterface
    interface Member {

        /** Latches a stop: the next sample or call of its own thread stops it. */
        void latchBeside(String why);
    }

    private final int size;
    private final List<Member> members = new CopyOnWriteArrayList<>();
    private final AtomicInteger ready = new AtomicInteger();
    private final AtomicInteger done = new AtomicInteger();
    private final AtomicReference<@Nullable AxisException> first = new AtomicReference<>();

    /** @param size number of axes that will join */
    Company(int size) {
        this.size = size;
    }

    /** One more axis belongs to it, and is stopped at once if another is stopped already. */
    void join(Member member) {
        if (size > 0) {
            members.add(member);
            trouble().ifPresent(trouble -> member.latchBeside(because(trouble)));
        }
    }

    /** One more axis has been found fit to start. */
    void ready() {
        if (size > 0) {
            ready.incrementAndGet();
        }
    }

    boolean allReady() {
        return ready.get() >= size;
    }

    /** One more axis has done what it was to do. */
    void done() {
        if (size > 0) {
            done.incrementAndGet();
        }
    }

    boolean allDone() {
        return done.get() >= size;
    }

    /** Something stopped a member: the others are stopped too. */
    void troubled(Member member, AxisException trouble) {
        if (size > 0 && first.compareAndSet(null, trouble)) {
            members.stream().filter(other -> other != member).forEach(other -> other.latchBeside(because(trouble)));
        }
    }

    private static String because(AxisException trouble) {
        return "an axis that moved at once with it had trouble: " + trouble.getMessage();
    }

    /** What stopped the first of them. */
    Optional<AxisException> trouble() {
        return Optional.ofNullable(first.get());
    }
}
