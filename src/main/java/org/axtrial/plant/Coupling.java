package org.axtrial.plant;

/**
 * Elastic shaft, coupling, belt or gearbox between motor and load, referred to the motor shaft.
 *
 * @param stiffness k in N·m/rad, positive
 * @param damping d in N·m·s/rad, not negative; works only where the flanks touch
 * @param backlash whole dead zone in rad, not negative
 */
public record Coupling(double stiffness, double damping, double backlash) {

    public Coupling {
        Require.positive("stiffness", stiffness);
        Require.notNegative("coupling damping", damping);
        Require.notNegative("backlash", backlash);
    }

    /**
     * A coupling without backlash whose damping is a share of critical damping of the free two-mass oscillation:
     * d = 2·ζ·√(k·J), J = Jm·Jl/(Jm + Jl).
     *
     * @param ratio ζ, 0 … 1
     */
    public static Coupling damped(double stiffness, double ratio, double motorInertia, double loadInertia) {
        double reduced = motorInertia * loadInertia / (motorInertia + loadInertia);
        return new Coupling(stiffness, 2 * ratio * Math.sqrt(stiffness * reduced), 0);
    }

    /** The same with a dead zone, in rad. */
    public Coupling withBacklash(double deadZone) {
        return new Coupling(stiffness, damping, deadZone);
    }
}
