package org.axtrial.sim;

/**
 * Position P, speed PI and first-order torque loop, one inside the other.
 *
 * <p>Speed demand = Kv · position error + f · demand speed; torque demand = Kp · speed error + Ki · ∫ speed error + J_f ·
 * demand acceleration, limited; while it is limited the integral does not grow. The torque follows its demand with the time constant
 * 1/(2π · bandwidth). The speed loop is fed the true shaft speed, as an ideal observer would give it; the position
 * loop is fed whole register counts.
 */
final class Cascade {

    private final Gains gains;
    private final double integralGain;
    private final double torqueFollow;
    private final double mostSpeed;

    private double integral;
    private double torque;
    private boolean limited;

    /**
     * Gains of the loops.
     *
     * @param speedProportional N·m·s/rad
     * @param speedIntegral N·m/rad
     * @param position Kv in 1/s
     * @param feedForward 0 … 1
     * @param torqueBandwidth Hz
     * @param fedInertia kg·m², inertia whose acceleration torque bypasses the speed loop, not negative
     */
    record Gains(
            double speedProportional,
            double speedIntegral,
            double position,
            double feedForward,
            double torqueBandwidth,
            double fedInertia) {

        /** Gains without acceleration feed-forward. */
        Gains(
                double speedProportional,
                double speedIntegral,
                double position,
                double feedForward,
                double torqueBandwidth) {
            this(speedProportional, speedIntegral, position, feedForward, torqueBandwidth, 0);
        }

        /**
         * Gains for an inertia: Kp = J·ω puts the crossover of the speed loop at the bandwidth ω, and Ki = Kp·ω/4 gives
         * s² + ω·s + ω²/4, both poles at ω/2 (critically damped). Gains that the loops tell themselves are taken as told.
         */
        static Gains tuned(SimulationSpec.Loops loops, double inertia) {
            double crossover = 2 * Math.PI * loops.speedBandwidth();
            double proportional = inertia * crossover;
            SimulationSpec.SpeedGains gains = loops.speedGains()
                    .orElse(new SimulationSpec.SpeedGains(proportional, proportional * crossover / 4));
            return new Gains(
                    gains.proportional(),
                    gains.integral(),
                    loops.positionGain(),
                    loops.speedFeedForward(),
                    loops.torqueBandwidth(),
                    loops.accelerationFeedForward() * inertia);
        }
    }

    /**
     * Loops at rest.
     *
     * @param mostSpeed limit of the speed demand in rad/s
     * @param step sampling step in s
     */
    Cascade(Gains gains, double mostSpeed, double step) {
        this.gains = gains;
        this.integralGain = gains.speedIntegral() * step;
        this.torqueFollow = -StrictMath.expm1(-2 * Math.PI * gains.torqueBandwidth() * step);
        this.mostSpeed = mostSpeed;
    }

    /**
     * One sample.
     *
     * @param positionError rad
     * @param demandSpeed rad/s
     * @param speed rad/s
     * @param torqueLimit N·m, not negative
     * @return torque of the motor in N·m
     */
    double step(double positionError, double demandSpeed, double speed, double torqueLimit) {
        return step(positionError, demandSpeed, 0, speed, torqueLimit);
    }

    /**
     * One sample with acceleration feed-forward.
     *
     * @param demandAcceleration rad/s²
     */
    double step(double positionError, double demandSpeed, double demandAcceleration, double speed, double torqueLimit) {
        double wanted = gains.position() * positionError + gains.feedForward() * demandSpeed;
        double allowed = within(mostSpeed, wanted);
        double error = allowed - speed;
        double asked = gains.speedProportional() * error + integral + gains.fedInertia() * demandAcceleration;
        double given = within(torqueLimit, asked);
        limited = asked != given;
        boolean unwinding = (asked > given) == (error < 0);
        if (!limited || unwinding) {
            integral += integralGain * error;
        }
        torque += (given - torque) * torqueFollow;
        return torque;
    }

    /** Plain comparisons: the library's minimum and maximum also sort out signed zeros, at every step. */
    private static double within(double most, double value) {
        return value > most ? most : value < -most ? -most : value;
    }

    /**
     * One sample in which the torque follows a demand of its own.
     *
     * @return torque of the motor in N·m
     */
    double follow(double demand, double torqueLimit) {
        double given = within(torqueLimit, demand);
        limited = demand != given;
        torque += (given - torque) * torqueFollow;
        integral = torque;
        return torque;
    }

    /** Takes the torque away at once. */
    void release() {
        preset(0);
    }

    /** Sets the torque that the loop starts from, N·m, so that a hanging load does not sag when its brake opens. */
    void preset(double load) {
        integral = load;
        torque = load;
        limited = false;
    }

    double torque() {
        return torque;
    }

    double integral() {
        return integral;
    }

    /** Whether the torque demand stands at its limit. */
    boolean limited() {
        return limited;
    }
}
