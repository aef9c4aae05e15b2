package org.axtrial.time;

import java.time.Instant;
import java.util.concurrent.locks.LockSupport;

/** Real time from the machine's clocks. */
public final class SystemTime implements TimeSource {

    /** There is one machine, so one instance serves all. */
    public static final SystemTime INSTANCE = new SystemTime();

    private SystemTime() {}

    @Override
    public long nanos() {
        return System.nanoTime();
    }

    @Override
    public Instant instant() {
        return Instant.now();
    }

    @Override
    public void sleepUntil(long nanos) throws InterruptedException {
        for (long left = nanos - System.nanoTime(); left > 0; left = nanos - System.nanoTime()) {
            LockSupport.parkNanos(this, left);
            if (Thread.interrupted()) {
                throw new InterruptedException("interrupted while waiting");
            }
        }
        if (Thread.interrupted()) {
            throw new InterruptedException("interrupted while waiting");
        }
    }

    @Override
    public boolean isVirtual() {
        return false;
    }
}
