package org.axtrial.plant;

/** Brings the brake from closed to open and back, with its delays in whole steps. */
final class BrakeActuator {

    private final double holding;
    private final long engageSteps;
    private final long releaseSteps;

    private double factor = 1;
    private boolean closed = true;
    private long waiting;

    BrakeActuator(HoldingBrake brake, double step) {
        this.holding = brake.torque();
        this.engageSteps = steps(brake.engageDelay().toNanos(), step);
        this.releaseSteps = steps(brake.releaseDelay().toNanos(), step);
    }

    private static long steps(long nanos, double step) {
        return (long) Math.ceil(nanos * 1e-9 / step - 1e-9);
    }

    /** Lets one step pass and gives the holding torque in it, N·m. */
    double step(boolean close) {
        if (close == closed) {
            waiting = 0;
        } else if (waiting >= (close ? engageSteps : releaseSteps)) {
            closed = close;
            waiting = 0;
        } else {
            waiting++;
        }
        return closed ? holding * factor : 0;
    }

    /** Whether nothing is under way. */
    boolean settled() {
        return waiting == 0;
    }

    BrakeState state() {
        if (closed) {
            return waiting == 0 ? BrakeState.ENGAGED : BrakeState.RELEASING;
        }
        return waiting == 0 ? BrakeState.RELEASED : BrakeState.ENGAGING;
    }

    void factor(double share) {
        factor = share;
    }
}
