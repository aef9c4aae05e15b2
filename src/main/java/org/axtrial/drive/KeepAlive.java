package org.axtrial.drive;

import java.util.List;
import java.util.Optional;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.TimeSource;

/**
 * Writes the keep-alive register of a drive, when the description declares one, whenever somebody looks at the axis and
 * it is due. It has no thread and no timer of its own on purpose: it must fall silent with the loop that supervises.
 */
final class KeepAlive {

    /** Four times within the time-out, so that one lost or late look does not stop the axis. */
    private static final int WRITES_PER_TIMEOUT = 4;

    private final DriveRegisters registers;
    private final TimeSource time;
    private final Optional<DriveDescription.KeepAlive> declared;
    private final long periodNanos;
    private boolean written;
    private long lastNanos;
    private int next;

    KeepAlive(DriveRegisters registers, TimeSource time) {
        this.registers = registers;
        this.time = time;
        Optional<DriveDescription.Watchdog> watchdog = registers.description().watchdog();
        this.declared = watchdog.flatMap(DriveDescription.Watchdog::keepAlive);
        this.periodNanos = watchdog.map(dog -> dog.timeout().toNanos()).orElse(0L) / WRITES_PER_TIMEOUT;
    }

    /** Somebody looks at the axis. */
    synchronized void looked() throws DriveException {
        if (declared.isEmpty() || (written && time.nanos() - lastNanos < periodNanos)) {
            return;
        }
        List<Long> values = declared.get().values();
        long value = values.get(next);
        next = (next + 1) % values.size();
        registers.write(List.of(Profile.counts(declared.get().signal(), value)));
        written = true;
        lastNanos = time.nanos();
    }
}
