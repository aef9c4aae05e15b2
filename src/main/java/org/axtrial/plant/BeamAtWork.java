package org.axtrial.plant;

/** A beam between two loads, with its force and where its energy went. */
final class BeamAtWork {

    private final LoadSide first;
    private final LoadSide second;
    private final double stiffness;
    private final double damping;
    private final double skewAtStart;
    private final double half;

    private double speedBefore;
    private double force;
    private double viscousForce;
    private double skewBefore;
    private double dissipated;

    /**
     * A beam at rest.
     *
     * @param interval between exchanges of its force, s
     */
    BeamAtWork(GantryBeam beam, LoadSide first, LoadSide second, double interval) {
        this.first = first;
        this.second = second;
        this.stiffness = beam.stiffness();
        this.damping = beam.damping();
        this.skewAtStart = beam.skewAtStart();
        this.half = interval / 2;
        this.speedBefore = speed();
    }

    /** Works out the force for the coming interval, from where the loads would be in its middle if nothing pushed them. */
    void lookAhead() {
        double speed = speed();
        viscousForce = damping * (1.5 * speed - 0.5 * speedBefore);
        force = stiffness * (skew() + half * speed) + viscousForce;
        speedBefore = speed;
        skewBefore = skew();
    }

    /** Adds its torques to what pushes the loads. */
    void push() {
        first.plant().pushLoad(first.plant().push() - first.torque(force));
        second.plant().pushLoad(second.plant().push() + second.torque(force));
    }

    /** Accounts for the interval that has passed. */
    void passed() {
        dissipated += viscousForce * (skew() - skewBefore);
    }

    /** Whether the coming interval would have the force of the last one. */
    boolean settled() {
        double speed = speed();
        return speed == 0 && speedBefore == 0 && force == stiffness * skew();
    }

    double skew() {
        return first.position() - second.position() + skewAtStart;
    }

    private double speed() {
        return first.speed() - second.speed();
    }

    double force() {
        return force;
    }

    double elastic() {
        double skew = skew();
        return 0.5 * stiffness * skew * skew;
    }

    double dissipated() {
        return dissipated;
    }
}
