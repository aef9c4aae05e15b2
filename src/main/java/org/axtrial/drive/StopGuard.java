package org.axtrial.drive;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Lets a stop from another thread cut into a command sequence between two of its writes. Once a stop has been ordered,
 * the rest of the sequence must not go out: the next control word of a hand-shake would take the halt away again.
 *
 * <p>The lock is held for one exchange at a time, so a stop waits for one exchange at most, never for a hand-shake.
 */
final class StopGuard {

    /** Something that goes to the drive. */
    interface Exchange<T> {
        T run() throws DriveException;
    }

    private final ReentrantLock oneWrite = new ReentrantLock(true);
    private final AtomicLong stops = new AtomicLong();

    /** Taken when a sequence begins; void as soon as a stop is ordered. */
    long ticket() {
        return stops.get();
    }

    /** Whether a stop has been ordered since the ticket was taken. */
    boolean isVoid(long ticket) {
        return stops.get() != ticket;
    }

    /** Runs a write that no stop holds back, but never between the steps of a stop. */
    <T> T alone(Exchange<T> write) throws DriveException {
        oneWrite.lock();
        try {
            return write.run();
        } finally {
            oneWrite.unlock();
        }
    }

    /**
     * Runs one write of a sequence.
     *
     * @return whether it ran; if not, a stop came first and nothing was sent
     */
    <T> Optional<T> unlessStopped(long ticket, Exchange<T> write) throws DriveException {
        oneWrite.lock();
        try {
            return isVoid(ticket) ? Optional.empty() : Optional.of(write.run());
        } finally {
            oneWrite.unlock();
        }
    }

    /** Voids every sequence under way, then runs the stop. */
    <T> T stop(Exchange<T> write) throws DriveException {
        stops.incrementAndGet();
        return alone(write);
    }
}
