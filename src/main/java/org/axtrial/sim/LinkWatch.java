package org.axtrial.sim;

import java.util.Arrays;
import java.util.Optional;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalSpec;

/** The drive's supervision of its link: when it was heard last, and how long it bears silence. Times are ns. */
final class LinkWatch {

    private final long firstTimeout;
    private final Optional<SignalSpec> shown;
    private final Optional<SignalSpec> keepAlive;

    private long timeout;
    private long heard;

    /** A watch as the description declares it; without a watchdog silence never counts. */
    LinkWatch(DriveDescription description) {
        Optional<DriveDescription.Watchdog> watchdog = description.watchdog();
        this.firstTimeout =
                watchdog.map(declared -> declared.timeout().toNanos()).orElse(0L);
        this.shown = watchdog.flatMap(DriveDescription.Watchdog::signal);
        this.keepAlive = watchdog.flatMap(DriveDescription.Watchdog::keepAlive).map(DriveDescription.KeepAlive::signal);
        this.timeout = firstTimeout;
    }

    /** The register that shows the time-out and sets it, if there is one. */
    Optional<RegisterCell> cell() {
        return shown.map(signal -> new RegisterCell.Held(
                signal, RegisterCell.nearest(signal, inTimeUnit(signal, (double) firstTimeout)), false));
    }

    /** The drive has been switched on. */
    void restart(long nanos) {
        heard = nanos;
        timeout = firstTimeout;
    }

    /** A request has come in. */
    void heard(long nanos) {
        if (keepAlive.isEmpty()) {
            heard = nanos;
        }
    }

    /** New words are about to be held by a register. */
    void written(RegisterCell.Held cell, int[] words, long nanos) {
        if (keepAlive.filter(cell.spec()::equals).isPresent() && !Arrays.equals(cell.words(), words)) {
            // Only a change proves that somebody is at work: a gateway could repeat the last value for ever.
            heard = nanos;
        }
    }

    /** A register holds a new value, which may be the time-out. */
    void told(RegisterCell.Held cell, double value) {
        shown.ifPresent(signal -> {
            if (signal.address() == cell.first()
                    && signal.table() == cell.spec().table()) {
                timeout = Math.round(timeUnit(signal).convert(value, Unit.MICROSECOND) * 1_000);
            }
        });
    }

    /** Whether nothing has been heard for longer than the time-out. */
    boolean silent(long nanos) {
        return timeout > 0 && nanos - heard > timeout;
    }

    private static double inTimeUnit(SignalSpec signal, double nanos) {
        return Unit.MICROSECOND.convert(nanos / 1_000, timeUnit(signal));
    }

    private static Unit timeUnit(SignalSpec signal) {
        return signal.unit().dimension() == Dimension.TIME ? signal.unit() : Unit.MILLISECOND;
    }
}
