package org.axtrial.plant;

/** The end stops at work: a lossy spring beyond either limit, that never pulls. */
final class StopContact {

    /** So much finer than elsewhere are sub-steps at a stop: the jump of the damping there costs the second order. */
    private static final double FINER = 4;

    private final double lower;
    private final double upper;
    private final double stiffness;
    private final double damping;

    /**
     * Contact of an inertia.
     *
     * @param inertia that meets the stops, kg·m²
     */
    StopContact(PlantSpec spec, double inertia) {
        this.lower = spec.details().endStops().map(EndStops::lower).orElse(Double.NEGATIVE_INFINITY);
        this.upper = spec.details().endStops().map(EndStops::upper).orElse(Double.POSITIVE_INFINITY);
        this.stiffness = spec.details().endStops().map(EndStops::stiffness).orElse(0.0);
        this.damping = spec.details()
                .endStops()
                .map(stops -> 2 * stops.dampingRatio() * Math.sqrt(stops.stiffness() * inertia))
                .orElse(0.0);
    }

    double stiffness() {
        return stiffness;
    }

    /** The rate in rad/s that decides over the sub-steps at a stop, for an inertia on a further spring. */
    double rate(double inertia, double spring) {
        return FINER * Math.sqrt((stiffness + spring) / inertia);
    }

    /** Whether a contact is there, or could come, within a reach in rad. */
    boolean near(double angle, double reach) {
        double most = Math.abs(reach);
        return angle + most > upper || angle - most < lower;
    }

    /** How far the load is in a stop, rad; positive in the upper one. */
    double depth(double angle) {
        if (angle > upper) {
            return angle - upper;
        }
        return angle < lower ? angle - lower : 0;
    }

    /** Torque on the load at a depth, N·m. */
    double torque(double depth, double speed) {
        double whole = -stiffness * depth - damping * speed;
        return whole * depth < 0 ? whole : 0;
    }
}
