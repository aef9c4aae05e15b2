package org.axtrial.time;

import java.time.Duration;

/**
 * A point in time by which something must be over.
 *
 * @param time the clock that the deadline is read from
 * @param atNanos the deadline on {@link TimeSource#nanos}
 */
public record Deadline(TimeSource time, long atNanos) {

    /** A deadline that far from now. */
    public static Deadline in(TimeSource time, Duration from) {
        return new Deadline(time, time.nanos() + from.toNanos());
    }

    /** What is left in nanoseconds, negative once passed. */
    public long leftNanos() {
        return atNanos - time.nanos();
    }

    public boolean isPassed() {
        return leftNanos() <= 0;
    }
}
