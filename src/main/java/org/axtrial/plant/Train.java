package org.axtrial.plant;

/**
 * The moving masses between motor torque and load. A step is cut into equal sub-steps h, each of which drifts half,
 * kicks, and drifts half (leapfrog; second order): θ += h/2·ω; ω' from the torques at that place; θ += h/2·ω'. Viscous
 * friction enters as a trapezium, (ω + ω')/2. The Stribeck level and the damping of coupling and stops take the speed
 * in the middle of the kick, extrapolated from the last one.
 *
 * <p>Sub-steps keep ω·h of the stiffest oscillation and B·h/J of every inertia within {@link #FINENESS}.
 */
abstract sealed class Train permits RigidTrain, CompliantTrain {

    /**
     * Most of ω·h. A leapfrog oscillation is too fast by (ω·h)²/24, here 0.26 %, which is far less than what is known
     * of a stiffness; it becomes unstable at 2.
     */
    static final double FINENESS = 0.25;

    /** More sub-steps than that mean a train so stiff that it should be told as rigid. */
    static final int MOST_SUB_STEPS = 256;

    double motorAngle;
    double motorSpeed;

    /** Of the load, referred to the motor shaft. */
    double loadAngle;

    double loadSpeed;

    double motorWork;
    double dissipated;

    /** Lets one step pass under the torque of the motor and a braking torque, N·m. */
    abstract void step(double torque, double brake);

    abstract double kinetic();

    abstract double elastic();

    /** Inertia that a blow on the load meets at once, kg·m². */
    abstract double inertiaAtLoad();

    /** The load, and what turns rigidly with it, turns at another speed from now on. */
    abstract void jump(double loadSpeed);

    /** Hangs the load on its train, at rest. */
    abstract void settle();

    /** Turns all of it from outside; it is at rest afterwards. */
    abstract void turn(double radians);

    /** Works out again what follows from parameters. */
    abstract void parametersChanged();

    /** Sub-steps that a rate in rad/s asks for. */
    static int subSteps(double rate, double step) {
        double wanted = Math.ceil(rate * step / FINENESS - 1e-9);
        if (wanted > MOST_SUB_STEPS) {
            throw new IllegalArgumentException("an oscillation of " + Math.round(rate / (2 * Math.PI))
                    + " Hz is too fast to be simulated; lower the stiffness, or leave it out");
        }
        return (int) Math.max(1, wanted);
    }

    /**
     * Speed after a kick in which dry friction may stop the shaft or hold it.
     *
     * <p>Where the speed would change its sign, the rest of the kick begins at standstill: there the shaft stays unless
     * the torque exceeds the level at rest. That is why friction neither chatters nor moves a shaft at rest.
     *
     * @param speed before, rad/s
     * @param drive torque without friction of this shaft, N·m
     * @param level dry friction in motion, N·m
     * @param breakaway dry friction at rest, N·m
     * @param forward further resistance against positive motion, N·m
     * @param backward further resistance against negative motion, N·m
     * @param kept share of the speed that viscous friction leaves, (1 − h·B/(2·J))/(1 + h·B/(2·J))
     * @param gain h/J/(1 + h·B/(2·J))
     */
    static double after(
            double speed,
            double drive,
            double level,
            double breakaway,
            double forward,
            double backward,
            double kept,
            double gain) {
        double rest = 1;
        if (speed > 0) {
            double next = speed * kept + (drive - (level + forward)) * gain;
            if (next >= 0 || level + backward == 0) {
                return next;
            }
            rest = next / (next - speed);
        } else if (speed < 0) {
            double next = speed * kept + (drive + (level + backward)) * gain;
            if (next <= 0 || level + forward == 0) {
                return next;
            }
            rest = next / (next - speed);
        }
        return fromRest(drive, breakaway + forward, breakaway + backward, gain * rest);
    }

    private static double fromRest(double drive, double forward, double backward, double gain) {
        if (drive > forward) {
            return (drive - forward) * gain;
        }
        return drive < -backward ? (drive + backward) * gain : 0;
    }
}
