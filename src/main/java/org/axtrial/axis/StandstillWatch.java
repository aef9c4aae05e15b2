package org.axtrial.axis;

/**
 * Sees whether an axis stands: its position has stayed within ± a window for a time, and its speed does not contradict
 * that. Fed by one thread.
 */
final class StandstillWatch {

    /** A speed that would have left the window so many times over contradicts standstill; less may be noise. */
    private static final double CONTRADICTION = 20;

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

    /** The highest reported speed that does not contradict standstill, in axis units per second. */
    static double restingSpeed(AxisSetup setup) {
        return CONTRADICTION
                * SafeStop.windowInAxisUnit(setup)
                / (setup.standstillTime().toNanos() * 1e-9);
    }

    /** Takes a sample and tells whether the axis stands by now. */
    boolean standsAt(AxisSample sample) {
        if (Math.abs(sample.speed()) * nanos * 1e-9 > CONTRADICTION * window) {
            // A position that stays put while the speed does not is no proof: one of the two is stale or wrong.
            anchored = false;
            return false;
        }
        return standsAt(sample.position(), sample.midNanos());
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
