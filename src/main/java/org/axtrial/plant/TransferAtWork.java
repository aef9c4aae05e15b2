package org.axtrial.plant;

/** A load that waits for its hand-over, or has been handed over. */
final class TransferAtWork {

    private final LoadTransfer transfer;
    private final LoadSide first;
    private final LoadSide second;
    private final double interval;
    private boolean handedOver;

    /** The first axis carries the load from now on; it must not have moved yet. */
    TransferAtWork(LoadTransfer transfer, LoadSide first, LoadSide second, double interval) {
        this.transfer = transfer;
        this.first = first;
        this.second = second;
        this.interval = interval;
        first.plant().carry(first.inertia(transfer.mass()), first.torque(transfer.forceBefore()));
    }

    /** Whether the load changed hands just now, after so many intervals since the start. */
    boolean passed(long intervals) {
        if (handedOver || !due(intervals)) {
            return false;
        }
        handedOver = true;
        double speed = first.speed();
        first.plant().letGo(first.inertia(transfer.mass()), first.torque(transfer.forceBefore()));
        second.plant()
                .take(
                        second.inertia(transfer.mass()),
                        second.torque(transfer.forceAfter()),
                        speed / second.perRadian());
        return true;
    }

    private boolean due(long intervals) {
        if (transfer.moment() instanceof LoadTransfer.AtPlace at) {
            double position = first.position();
            return at.place() > 0 ? position >= at.place() : position <= at.place();
        }
        return intervals >= nextChange();
    }

    /** Intervals since the start at whose end it is handed over at the latest, as far as that is known. */
    long nextChange() {
        return !handedOver && transfer.moment() instanceof LoadTransfer.AfterTime after
                ? (long) Math.ceil(after.seconds() / interval - ROUNDING)
                : Long.MAX_VALUE;
    }

    /** A time of whole intervals must not be rounded up to the next one. */
    private static final double ROUNDING = 1e-6;

    boolean handedOver() {
        return handedOver;
    }
}
