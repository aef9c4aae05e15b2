package org.axtrial.sim;

/**
 * Rotor and reflected load as one inertia on one shaft.
 *
 * <p>J·dω/dt = T + T_gravity − B·ω − T_C·sign(ω), Newton's law for a shaft with viscous and Coulomb friction. A step
 * takes the torque as constant, for which the viscous part has an exact solution, so that any step width is stable.
 * Where the speed would change its sign within a step the shaft stops there; it leaves standstill only when the torque
 * on it exceeds the Coulomb friction. That is why friction neither chatters nor moves a shaft at rest.
 *
 * <p>A load with gravity has a spring-applied brake that holds more than gravity pulls while the drive gives no
 * torque. It acts as additional Coulomb friction.
 */
final class Plant {

    /** Holding torque of the brake over the torque of gravity; common practice is two to three. */
    private static final double BRAKE_RESERVE = 2.5;

    private final double step;
    private final double gravity;
    private final double coulomb;
    private final double brake;
    private final double speedDecay;
    private final double speedGain;

    private double angle;
    private double speed;

    /**
     * A plant at rest.
     *
     * @param inertia total at the shaft in kg·m²
     * @param step integration step in s
     */
    Plant(double inertia, SimulationSpec.Load load, double step) {
        this.step = step;
        this.gravity = load.gravityTorque();
        this.coulomb = load.coulomb();
        this.brake = BRAKE_RESERVE * Math.abs(gravity);
        double viscous = load.viscous();
        if (viscous > 0) {
            this.speedDecay = StrictMath.exp(-viscous * step / inertia);
            this.speedGain = -StrictMath.expm1(-viscous * step / inertia) / viscous;
        } else {
            this.speedDecay = 1;
            this.speedGain = step / inertia;
        }
    }

    /**
     * Lets one step pass.
     *
     * @param torque of the motor in N·m
     * @param braked whether the brake is closed
     */
    void step(double torque, boolean braked) {
        double friction = braked ? coulomb + brake : coulomb;
        double before = speed;
        double driving = torque + gravity;
        double after;
        if (before > 0) {
            after = before * speedDecay + (driving - friction) * speedGain;
            if (after < 0 && friction > 0) {
                after = 0;
            }
        } else if (before < 0) {
            after = before * speedDecay + (driving + friction) * speedGain;
            if (after > 0 && friction > 0) {
                after = 0;
            }
        } else if (driving > friction) {
            after = (driving - friction) * speedGain;
        } else if (driving < -friction) {
            after = (driving + friction) * speedGain;
        } else {
            after = 0;
        }
        speed = after;
        angle += step * 0.5 * (before + after);
    }

    /** Turns the shaft by so many rad from outside; it is at rest afterwards. */
    void turn(double radians) {
        angle += radians;
        speed = 0;
    }

    /** Shaft angle in rad since the simulation started, not wrapped. */
    double angle() {
        return angle;
    }

    /** Shaft speed in rad/s. */
    double speed() {
        return speed;
    }

    /** Torque of gravity on the shaft in N·m. */
    double gravity() {
        return gravity;
    }
}
