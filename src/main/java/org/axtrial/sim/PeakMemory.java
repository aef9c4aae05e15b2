package org.axtrial.sim;

/** The largest following error and torque since they were last forgotten, caught in every step of the servo. */
final class PeakMemory {

    private double followingError;
    private double torque;

    /**
     * Sees what the servo does now.
     *
     * @param error following error in counts
     * @param motorTorque in N·m
     */
    void see(double error, double motorTorque) {
        followingError = Math.max(followingError, Math.abs(error));
        torque = Math.max(torque, Math.abs(motorTorque));
    }

    /** Forgets all; what is there at that moment is the first that it sees again. */
    void clear(double error, double motorTorque) {
        followingError = 0;
        torque = 0;
        see(error, motorTorque);
    }

    /** In counts, not negative. */
    double followingError() {
        return followingError;
    }

    /** In N·m, not negative. */
    double torque() {
        return torque;
    }
}
