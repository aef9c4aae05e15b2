package org.axtrial.time;

import java.time.Instant;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Time that passes only when somebody waits. One instance belongs to one axis and its simulated drive, so that axes
 * run side by side without waiting for each other and results repeat to the bit; or to axes whose drives are coupled, and
 * which are tried one after the other. Axes that move at once take turns ({@link AtOnce}).
 */
public final class VirtualTime implements TimeSource {

    private final Instant start;
    private final AtomicLong nanos = new AtomicLong();

    /** Virtual time that begins at zero and tells {@code start} as wall clock. */
    public VirtualTime(Instant start) {
        this.start = start;
    }

    @Override
    public long nanos() {
        return nanos.get();
    }

    @Override
    public Instant instant() {
        return start.plusNanos(nanos.get());
    }

    @Override
    public void sleepUntil(long target) throws InterruptedException {
        if (Thread.currentThread() instanceof Turns.Member member) {
            member.awaitTurn(this, target);
        }
        if (Thread.interrupted()) {
            throw new InterruptedException("interrupted while waiting");
        }
        nanos.accumulateAndGet(target, Math::max);
    }

    /** Lets time pass without a waiting thread, as an exchange on a simulated wire does. */
    public void advance(long byNanos) {
        if (byNanos < 0) {
            throw new IllegalArgumentException("time cannot run backwards: " + byNanos + " ns");
        }
        nanos.addAndGet(byNanos);
    }

    @Override
    public boolean isVirtual() {
        return true;
    }
}
