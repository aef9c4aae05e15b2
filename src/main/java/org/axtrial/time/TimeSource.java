package org.axtrial.time;

import java.time.Instant;

/**
 * The only source of time in Axtrial. Durations come from {@link #nanos}, time stamps from {@link #instant}; waiting
 * goes through {@link #sleepUntil}, so that the same code runs in real time and, at no cost, in virtual time.
 */
public interface TimeSource {

    /** Monotonic time in nanoseconds since an arbitrary zero; never runs backwards. */
    long nanos();

    /** The wall clock, UTC. In virtual time a fixed start plus the elapsed virtual time. */
    Instant instant();

    /**
     * Waits until {@link #nanos} has reached the given value; returns at once if it has.
     *
     * @throws InterruptedException if the waiting thread is interrupted; the interrupt flag is cleared as usual
     */
    void sleepUntil(long nanos) throws InterruptedException;

    /** Whether waiting is free, that is, time is virtual. */
    boolean isVirtual();
}
