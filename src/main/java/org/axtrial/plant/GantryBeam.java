package org.axtrial.plant;

/**
 * The beam of a gantry: a spring and a damper between the loads of its two axes.
 *
 * <pre>
 * s = x1 − x2 + s0        skew
 * F = k·s + d·(v1 − v2)   on the first load −F, on the second +F
 * Ti = ±F·ri              at either motor shaft, r travel in one rad of the motor
 * </pre>
 *
 * <p>x counts from where the axes stand at the start. Source: Newton's third law, Hooke's law.
 *
 * @param stiffness k in N/m, on rotary axes N·m/rad; positive
 * @param damping d in N·s/m, on rotary axes N·m·s/rad; not negative
 * @param skewAtStart s0, how far the first axis is ahead of the second at the start, in m or rad; at 0 the beam is without
 *     force
 */
public record GantryBeam(double stiffness, double damping, double skewAtStart) implements LoadCoupling {

    public GantryBeam {
        Require.positive("stiffness of the beam", stiffness);
        Require.notNegative("damping of the beam", damping);
        Require.finite("skew at the start", skewAtStart);
    }

    /** A beam without force at the start. */
    public GantryBeam(double stiffness, double damping) {
        this(stiffness, damping, 0);
    }
}
