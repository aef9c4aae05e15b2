package org.axtrial.axis;

/** Sees from positions whether an axis stands: it has stayed within ± a window for a time. Fed by one thread. */
final class StandstillWatch {

    private final double window;
    private final long nanos;
    private boolean anchored;
    private double anchor;
    private long since;

    /**
     * A watch that has seen nothing yet.
     *
     * @param window half-width in axis units, positive
     * @param nanos how long the position must stay in it
     */
    StandstillWatch(double window, long nanos) {
        this.window = window;
        this.nanos = nanos;
    }

    /** A watch for the standstill window and time of an axis. */
    static StandstillWatch of(AxisSetup setup) {
        return new StandstillWatch(
                SafeStop.windowInAxisUnit(setup), setup.standstillTime().toNanos());
    }

    /** Takes a position and tells whether the axis stands by now. */
    boolean standsAt(double position, long atNanos) {
        if (!anchored || Math.abs(position - anchor) > window) {
            anchored = true;
            anchor = position;
            since = atNanos;
        }
        return atNanos - since >= nanos;
    }
}
