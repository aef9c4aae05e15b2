package org.axtrial.plant;

/**
 * Motor, train, load and brake of one axis, stepped with a fixed width. Angles and torques are referred to the motor shaft;
 * angles count from the start and are not wrapped. A step allocates nothing and uses basic arithmetic only, so that its
 * results are the same to the bit on every machine.
 *
 * <p>For the equations and the choice of sub-steps see {@code docs/simulation.md}.
 */
public final class Plant {

    /** By so much of itself a sum of inertias may differ from its parts. */
    private static final double ROUNDING = 1e-9;

    private final PlantState state;
    private final Train train;
    private final BrakeActuator brake;
    private final Winding winding;
    private final boolean elastic;

    private boolean unchanged;
    private double outside;
    private double startPotential;

    /**
     * A plant at rest with its brake closed.
     *
     * @param step width in s
     * @throws IllegalArgumentException if its stiffness makes an oscillation too fast for 256 sub-steps
     */
    public Plant(PlantSpec spec, double step) {
        Require.positive("step", step);
        this.state = new PlantState(spec);
        this.elastic = spec.details().coupling().isPresent();
        this.train = elastic ? new CompliantTrain(spec, state, step) : new RigidTrain(spec, state, step);
        this.brake = new BrakeActuator(spec.brake(), step);
        this.winding =
                new Winding(spec.ratedTorque(), spec.details().thermalTime().toNanos() * 1e-9, step);
        this.outside = train.elastic();
        this.startPotential = potential();
    }

    /**
     * Lets one step pass.
     *
     * @param torque of the motor in N·m, constant in the step
     * @param brakeClosed whether the brake has no current; it follows with its delays
     */
    public void step(double torque, boolean brakeClosed) {
        Train it = train;
        boolean still = it.motorSpeed == 0 && it.loadSpeed == 0;
        double from = it.loadAngle;
        it.step(torque, brake.step(brakeClosed));
        if (state.outer != 0) {
            outside += state.outer * (it.loadAngle - from);
        }
        winding.step(torque);
        unchanged = still && it.motorSpeed == 0 && it.loadSpeed == 0;
    }

    /**
     * Whether another step with the same torque and brake command would change nothing but the winding, which
     * {@link #rest} takes care of.
     */
    public boolean settled() {
        return unchanged && brake.settled() && winding.restful();
    }

    /** Lets so many steps pass at once, which only a settled plant allows; the last torque stays. */
    public void rest(long steps) {
        winding.rest(steps);
    }

    /** Turns the whole train by so many rad from outside; it is at rest afterwards. */
    public void turn(double radians) {
        Require.finite("angle", radians);
        double before = stored();
        train.turn(radians);
        cameIn(before);
    }

    /**
     * Puts a torque on the load from outside, beside gravity, until another is put on it; its work counts as energy from
     * outside. At first it is 0.
     *
     * @param torque N·m at the motor shaft, positive towards positive positions
     */
    public void pushLoad(double torque) {
        Require.finite("torque on the load", torque);
        state.outer(torque);
    }

    /** Torque on the load from outside in N·m. */
    public double push() {
        return state.outer;
    }

    /**
     * Inertia that a blow on the load meets at once, in kg·m² at the motor shaft: that of the load behind an elastic train,
     * otherwise that of motor and load; what is carried is part of both.
     */
    public double inertiaAtLoad() {
        return train.inertiaAtLoad();
    }

    /**
     * Hangs a further load on the axis, at rest, before it has moved.
     *
     * @param inertia kg·m² at the motor shaft, not negative
     * @param gravity torque of gravity on it in N·m; positive pulls towards positive positions
     * @throws IllegalStateException if the axis moves
     */
    public void carry(double inertia, double gravity) {
        if (train.motorSpeed != 0 || train.loadSpeed != 0) {
            throw new IllegalStateException("a load is hung on an axis at rest; one that moves can take it over");
        }
        double before = stored();
        add(inertia, gravity);
        train.settle();
        changed(before);
    }

    /**
     * Takes over a further load that moves. It and the load of the axis have one speed at once (a wholly inelastic blow):
     * ω' = (J·ω + Ja·ωa)/(J + Ja) with J = {@link #inertiaAtLoad}; what that loses, ½·J·Ja/(J + Ja)·(ω − ωa)², counts as
     * dissipated and the rest as energy from outside.
     *
     * @param inertia Ja in kg·m² at the motor shaft, not negative
     * @param gravity torque of gravity on it in N·m; positive pulls towards positive positions
     * @param speed ωa in rad/s at the motor shaft
     */
    public void take(double inertia, double gravity, double speed) {
        Require.finite("speed of the load", speed);
        double before = stored();
        double own = train.inertiaAtLoad();
        double difference = train.loadSpeed - speed;
        double share = inertia / (own + inertia);
        add(inertia, gravity);
        train.jump(train.loadSpeed - share * difference);
        changed(before);
        double loss = 0.5 * own * share * difference * difference;
        train.dissipated += loss;
        outside += loss;
    }

    /**
     * Lets go of a load that was carried or taken; it leaves with its energy and the speed of the axis stays.
     *
     * @param inertia kg·m² at the motor shaft, no more than is carried
     * @param gravity torque of gravity on it in N·m
     */
    public void letGo(double inertia, double gravity) {
        Require.notNegative("inertia", inertia);
        if (inertia > state.carriedInertia * (1 + ROUNDING)) {
            throw new IllegalArgumentException(
                    "the axis carries " + state.carriedInertia + " kg·m² and cannot let go of " + inertia);
        }
        double before = stored();
        state.carry(-inertia, -gravity);
        changed(before);
    }

    private void add(double inertia, double gravity) {
        Require.notNegative("inertia", inertia);
        Require.finite("torque of gravity", gravity);
        state.carry(inertia, gravity);
        train.parametersChanged();
    }

    /** Motor angle in rad. */
    public double motorAngle() {
        return train.motorAngle;
    }

    /** Motor speed in rad/s. */
    public double motorSpeed() {
        return train.motorSpeed;
    }

    /** Load angle in rad, referred to the motor shaft. */
    public double loadAngle() {
        return train.loadAngle;
    }

    /** Load speed in rad/s, referred to the motor shaft. */
    public double loadSpeed() {
        return train.loadSpeed;
    }

    /** Torque of gravity and counterbalance on the load in N·m. */
    public double pull() {
        return state.pull;
    }

    /** Thermal load of the winding; 1 is what rated torque leads to in the end. */
    public double windingLoad() {
        return winding.load();
    }

    /** Whether the winding is too hot: set above a load of 1.1, cleared below 1. */
    public boolean windingTripped() {
        return winding.tripped();
    }

    public BrakeState brakeState() {
        return brake.state();
    }

    /** Whether the shaft turns although the brake holds. */
    public boolean brakeSlips() {
        boolean holds = brake.state() == BrakeState.ENGAGED || brake.state() == BrakeState.RELEASING;
        return holds && train.motorSpeed != 0;
    }

    /** Where the energy went so far. */
    public Energy energy() {
        return new Energy(
                train.motorWork,
                outside,
                train.kinetic(),
                potential() - startPotential,
                train.elastic(),
                train.dissipated);
    }

    /**
     * Multiplies all friction of motor and load.
     *
     * @param share not negative; 1 is what the specification says
     * @throws IllegalArgumentException also if the viscous friction becomes too strong for 256 sub-steps
     */
    public void frictionFactor(double share) {
        Require.notNegative("friction factor", share);
        double old = state.loadFriction.factor();
        try {
            friction(share);
        } catch (IllegalArgumentException e) { // too much for the step; all stays as it was
            friction(old);
            throw e;
        }
        unchanged = false;
    }

    /**
     * Multiplies the stiffness of the coupling.
     *
     * @param share positive; 1 is what the specification says
     * @throws IllegalArgumentException also if an oscillation becomes too fast for 256 sub-steps
     * @throws IllegalStateException if the train is rigid
     */
    public void stiffnessFactor(double share) {
        Require.positive("stiffness factor", share);
        requireElastic("stiffness");
        double before = stored();
        double old = state.stiffnessFactor;
        state.stiffnessFactor = share;
        try {
            train.parametersChanged();
        } catch (IllegalArgumentException e) { // too stiff for the step; all stays as it was
            state.stiffnessFactor = old;
            train.parametersChanged();
            throw e;
        }
        cameIn(before);
    }

    /**
     * Sets the dead zone of the coupling.
     *
     * @param radians not negative
     * @throws IllegalStateException if the train is rigid
     */
    public void backlash(double radians) {
        Require.notNegative("backlash", radians);
        requireElastic("backlash");
        double before = stored();
        state.backlash = radians;
        changed(before);
    }

    /**
     * Multiplies the holding torque of the brake.
     *
     * @param share not negative; 0 is a brake that does not hold
     */
    public void brakeTorqueFactor(double share) {
        Require.notNegative("brake torque factor", share);
        brake.factor(share);
        unchanged = false;
    }

    /**
     * Multiplies the torque of the counterbalance.
     *
     * @param share not negative; 0 is a counterbalance without pressure
     */
    public void counterbalanceFactor(double share) {
        Require.notNegative("counterbalance factor", share);
        double before = stored();
        state.counterbalance(share);
        changed(before);
    }

    private void requireElastic(String what) {
        if (!elastic) {
            throw new IllegalStateException("a rigid train has no " + what + "; give the load a stiffness");
        }
    }

    private void friction(double share) {
        state.motorFriction.factor(share);
        state.loadFriction.factor(share);
        train.parametersChanged();
    }

    private void changed(double before) {
        train.parametersChanged();
        cameIn(before);
    }

    private void cameIn(double before) {
        outside += stored() - before;
        unchanged = false;
    }

    private double stored() {
        return train.kinetic() + potential() + train.elastic();
    }

    private double potential() {
        return state.coggingEnergy(train.motorAngle) - state.pull * train.loadAngle;
    }
}
