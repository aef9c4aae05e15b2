package org.axtrial.plant;

/**
 * Temperature of the winding as the squared load of a first-order thermal model: τ·dq/dt = (T/T_rated)² − q, with the
 * torque standing for the current. q = 1 is what rated torque leads to in the end. For constant torque
 * q(t) = q∞ + (q0 − q∞)·exp(−t/τ), which each step follows exactly.
 *
 * <p>It trips above 1.1, which is a torque of 105 % for ever, and resets below 1.
 */
final class Winding {

    /** The factor 1.05 on the current of thermal overload relays, squared; common practice, from memory. */
    static final double TRIP = 1.1;

    private final double step;
    private final double time;
    private final double perRated;
    private final double follow;

    private double load;
    private double target;
    private long resting;
    private boolean tripped;

    Winding(double ratedTorque, double timeConstant, double step) {
        this.step = step;
        this.time = timeConstant;
        this.perRated = 1 / ratedTorque;
        this.follow = -StrictMath.expm1(-step / timeConstant);
    }

    void step(double torque) {
        if (resting > 0) {
            load = load();
            resting = 0;
        }
        double share = torque * perRated;
        target = share * share;
        load += (target - load) * follow;
        tripped = load > TRIP || (tripped && load > 1);
    }

    /** Lets time pass under the torque of the last step. The load is worked out when it is asked for. */
    void rest(long steps) {
        resting += steps;
    }

    /** Whether a rest cannot change whether it trips. */
    boolean restful() {
        return !tripped && target <= TRIP;
    }

    double load() {
        // In one piece from the start of the rest, so that how the rest was cut changes no bit.
        return resting == 0 ? load : target + (load - target) * StrictMath.exp(-(step * resting) / time);
    }

    boolean tripped() {
        return tripped;
    }
}
