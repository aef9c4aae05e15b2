package org.axtrial.plant;

/**
 * Motor and load as one inertia on one shaft:
 *
 * <pre>
 * (Jm + κ·Jl)·dω/dt = T + T_cog(θ) − friction of motor and brake − κ·(friction of load − T_gravity − T_stop)
 * </pre>
 *
 * <p>κ is 1/η where the torque through the gearbox goes with the motion, η' where it goes against it, 1 without loss.
 */
final class RigidTrain extends Train {

    private final PlantState state;
    private final double step;
    private final double motorInertia;
    private final double loadInertia;
    private final double inertia;
    private final StopContact stops;
    private final double driving;
    private final double backDriving;
    private final boolean lossless;

    private int freeCount;
    private int stopCount;
    private double freeWidth;
    private double freeGain;
    private double freeDecay;
    private double freeInverse;
    private double speedBefore;

    RigidTrain(PlantSpec spec, PlantState state, double step) {
        this.state = state;
        this.step = step;
        this.motorInertia = spec.motorInertia();
        this.loadInertia = spec.loadInertia();
        this.inertia = motorInertia + loadInertia;
        this.stops = new StopContact(spec, inertia);
        Efficiency efficiency = spec.details().efficiency();
        this.driving = 1 / efficiency.driving();
        this.backDriving = efficiency.backDriving();
        this.lossless = efficiency.equals(Efficiency.IDEAL);
        parametersChanged();
    }

    @Override
    void parametersChanged() {
        double viscous = viscous() / (lossless ? inertia : motorInertia);
        double contact = Math.sqrt(stops.stiffness() / inertia);
        freeCount = subSteps(viscous, step);
        stopCount = subSteps(Math.max(viscous, contact), step);
        freeWidth = step / freeCount;
        freeGain = freeWidth / inertia;
        freeDecay = 0.5 * freeGain * viscous();
        freeInverse = 1 / (1 + freeDecay);
    }

    private double viscous() {
        return state.motorFriction.viscous() + state.loadFriction.viscous();
    }

    @Override
    void step(double torque, double brake) {
        if (stops.near(motorAngle, motorSpeed * step * 2)) {
            stepAtStop(torque, brake);
            return;
        }
        for (int i = 0; i < freeCount; i++) {
            if (lossless) {
                kick(freeWidth, torque, brake, freeGain, freeDecay, freeInverse);
            } else {
                lossyKick(freeWidth, torque, brake);
            }
        }
    }

    private void stepAtStop(double torque, double brake) {
        double width = step / stopCount;
        double gain = width / inertia;
        double decay = 0.5 * gain * viscous();
        for (int i = 0; i < stopCount; i++) {
            if (lossless) {
                kick(width, torque, brake, gain, decay, 1 / (1 + decay));
            } else {
                lossyKick(width, torque, brake);
            }
        }
    }

    private void kick(double width, double torque, double brake, double gain, double decay, double inverse) {
        double was = motorSpeed;
        double middle = 1.5 * was - 0.5 * speedBefore;
        double half = 0.5 * width;
        double place = motorAngle + half * was;
        double depth = stops.depth(place);
        double stop = stops.torque(depth, middle);
        double level = state.motorFriction.level(middle) + state.loadFriction.level(middle) + brake;
        double breakaway = state.motorFriction.breakaway() + state.loadFriction.breakaway() + brake;
        double drive = torque + state.cogging(place) + state.pull + stop;
        double now = after(was, drive, level, breakaway, 0, 0, gain, decay, inverse);
        double turn = half * (was + now);
        advance(now, place + half * now);
        motorWork += torque * turn;
        dissipated += Math.abs(turn) * level
                + 0.5 * viscous() * turn * (was + now)
                - (stop + stops.stiffness() * depth) * turn;
    }

    private void advance(double speed, double angle) {
        speedBefore = motorSpeed;
        motorSpeed = speed;
        motorAngle = angle;
    }

    /** A kick with a lossy gearbox; where the speed would change its sign the rest of the kick begins at standstill. */
    private void lossyKick(double width, double torque, double brake) {
        double was = motorSpeed;
        double middle = 1.5 * was - 0.5 * speedBefore;
        double half = 0.5 * width;
        double place = motorAngle + half * was;
        double depth = stops.depth(place);
        double stop = stops.torque(depth, middle);
        double onMotor = torque + state.cogging(place);
        double onLoad = state.pull + stop;
        double motorLevel = state.motorFriction.level(middle) + brake;
        double loadLevel = state.loadFriction.level(middle);
        double now = 0;
        double rest = 1;
        if (was != 0) {
            double sense = Math.signum(was);
            now = meshed(was, sense, onMotor - sense * motorLevel, onLoad - sense * loadLevel, width);
            rest = now * sense < 0 ? now / (now - was) : 0;
        }
        if (rest > 0) {
            now = fromRest(onMotor, onLoad, brake, width) * rest;
        }
        double turn = half * (was + now);
        advance(now, place + half * now);
        motorWork += torque * turn;
        dissipated += Math.abs(turn) * (motorLevel + loadLevel)
                + 0.5 * viscous() * turn * (was + now)
                + lossInMesh(was, now, width, onLoad - Math.signum(turn) * loadLevel, turn)
                - (stop + stops.stiffness() * depth) * turn;
    }

    private double fromRest(double onMotor, double onLoad, double brake, double width) {
        double motorHold = state.motorFriction.breakaway() + brake;
        double loadHold = state.loadFriction.breakaway();
        double forward = meshed(0, 1, onMotor - motorHold, onLoad - loadHold, width);
        if (forward > 0) {
            return forward;
        }
        return Math.min(0, meshed(0, -1, onMotor + motorHold, onLoad + loadHold, width));
    }

    /** Speed after a kick in a sense of motion, from the torques on motor and load with their dry friction. */
    private double meshed(double speed, double sense, double onMotor, double onLoad, double width) {
        double motorViscous = state.motorFriction.viscous();
        double loadViscous = state.loadFriction.viscous();
        // Sign of the torque through the mesh; it does not depend on κ.
        double through = loadInertia * (onMotor - motorViscous * speed) - motorInertia * (onLoad - loadViscous * speed);
        double factor = through * sense > 0 ? driving : backDriving;
        double gain = width / (motorInertia + factor * loadInertia);
        double decay = 0.5 * gain * (motorViscous + factor * loadViscous);
        return (speed - speed * decay + (onMotor + factor * onLoad) * gain) / (1 + decay);
    }

    private double lossInMesh(double was, double now, double width, double onLoad, double turn) {
        double through = loadInertia * (now - was) / width - onLoad + 0.5 * state.loadFriction.viscous() * (was + now);
        double work = through * turn;
        return work > 0 ? work * (driving - 1) : work * (backDriving - 1);
    }

    @Override
    double loadAngle() {
        return motorAngle;
    }

    @Override
    double loadSpeed() {
        return motorSpeed;
    }

    @Override
    double kinetic() {
        return 0.5 * inertia * motorSpeed * motorSpeed;
    }

    @Override
    double elastic() {
        double depth = stops.depth(motorAngle);
        return 0.5 * stops.stiffness() * depth * depth;
    }

    @Override
    void turn(double radians) {
        motorAngle += radians;
        motorSpeed = 0;
        speedBefore = 0;
    }
}
