package org.axtrial.plant;

/**
 * Mechanical end stops of the load. Contact is a spring with damping that pushes and never pulls; it works on positions of the
 * load referred to the motor shaft.
 *
 * @param lower rad, below {@code upper}; negative infinity for none
 * @param upper rad; positive infinity for none
 * @param stiffness of the contact in N·m/rad, positive
 * @param dampingRatio ζ of the load on the contact, 0 … 1; 0.3 gives back 45 % of the speed, 0.5 gives back 30 %
 */
public record EndStops(double lower, double upper, double stiffness, double dampingRatio) {

    public EndStops {
        if (!(lower < upper)) {
            throw new IllegalArgumentException(
                    "the lower end stop must be below the upper one, got " + lower + " and " + upper);
        }
        Require.positive("end stop stiffness", stiffness);
        if (!(dampingRatio >= 0 && dampingRatio <= 1)) {
            throw new IllegalArgumentException("damping ratio of the end stops must be 0 … 1, got " + dampingRatio);
        }
    }

    /** The same stops seen from the other side. */
    public EndStops mirrored() {
        return new EndStops(-upper, -lower, stiffness, dampingRatio);
    }
}
