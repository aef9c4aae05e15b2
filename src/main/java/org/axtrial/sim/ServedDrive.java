package org.axtrial.sim;

import java.util.concurrent.atomic.AtomicLong;
import org.axtrial.time.TimeSource;

/**
 * A simulated drive that runs in real time, and how well it keeps up. Safe for several threads: whoever steps it first
 * does it, and the others find it in the present.
 */
final class ServedDrive {

    private final SimulatedDrive drive;
    private final TimeSource time;
    private final long zero;
    private final LagMeter lag = new LagMeter();
    private final AtomicLong requests = new AtomicLong();
    private boolean stopped;

    /** The drive runs on from now. */
    ServedDrive(SimulatedDrive drive, TimeSource time) {
        this.drive = drive;
        this.time = time;
        this.zero = time.nanos() - drive.nanos();
    }

    SimulatedDrive drive() {
        return drive;
    }

    /** Brings the drive to the present, and counts how far it was behind. */
    synchronized void advance() {
        if (stopped) {
            return;
        }
        long present = time.nanos() - zero;
        lag.see(present - drive.nanos());
        drive.advanceTo(present);
    }

    /** The drive stands still from now on. */
    synchronized void stop() {
        stopped = true;
    }

    synchronized StepLag lag() {
        return lag.read();
    }

    void countRequest() {
        requests.incrementAndGet();
    }

    /** Requests that have come in for it, whatever became of them. */
    long requests() {
        return requests.get();
    }
}
