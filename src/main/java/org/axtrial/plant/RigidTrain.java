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
    private final StopContact stops;
    private final double driving;
    private final double backDriving;
    private final boolean lossless;

    private double loadInertia;
    private double inertia;
    private int freeCount;
    private int stopCount;
    private double freeWidth;
    private double viscous;
    private double freeKept;
    private double freeGain;
    private double speedBefore;

    RigidTrain(PlantSpec spec, PlantState state, double step) {
        this.state = state;
        this.step = step;
        this.motorInertia = spec.motorInertia();
        this.stops = new StopContact(spec, motorInertia + spec.loadInertia());
        Efficiency efficiency = spec.details().efficiency();
        this.driving = 1 / efficiency.driving();
        this.backDriving = efficiency.backDriving();
        this.lossless = efficiency.equals(Efficiency.IDEAL);
        parametersChanged();
    }

    @Override
    void parametersChanged() {
        loadInertia = state.loadInertia();
        inertia = motorInertia + loadInertia;
        viscous = state.motorFriction.viscous() + state.loadFriction.viscous();
        double slowing = viscous / (lossless ? inertia : motorInertia);
        double contact = stops.rate(inertia, 0);
        freeCount = subSteps(slowing, step);
        stopCount = subSteps(Math.max(slowing, contact), step);
        freeWidth = step / freeCount;
        freeKept = kept(freeWidth);
        freeGain = gain(freeWidth);
    }

    private double kept(double width) {
        double decay = 0.5 * width * viscous / inertia;
        return (1 - decay) / (1 + decay);
    }

    private double gain(double width) {
        double decay = 0.5 * width * viscous / inertia;
        return width / inertia / (1 + decay);
    }

    @Override
    void step(double torque, double brake) {
        if (stops.near(motorAngle, motorSpeed * step * 2)) {
            stepAtStop(torque, brake);
            return;
        }
        for (int i = 0; i < freeCount; i++) {
            if (lossless) {
                kick(freeWidth, torque, brake, freeKept, freeGain, false);
            } else {
                lossyKick(freeWidth, torque, brake);
            }
        }
    }

    private void stepAtStop(double torque, double brake) {
        double width = step / stopCount;
        double kept = kept(width);
        double gain = gain(width);
        for (int i = 0; i < stopCount; i++) {
            if (lossless) {
                kick(width, torque, brake, kept, gain, true);
            } else {
                lossyKick(width, torque, brake);
            }
        }
    }

    private void kick(double width, double torque, double brake, double kept, double gain, boolean near) {
        double was = motorSpeed;
        double middle = 1.5 * was - 0.5 * speedBefore;
        double half = 0.5 * width;
        double place = motorAngle + half * was;
        double depth = near ? stops.depth(place) : 0;
        double stop = near ? stops.torque(depth, middle) : 0;
        double level = state.motorFriction.level(middle) + state.loadFriction.level(middle) + brake;
        double breakaway = state.motorFriction.breakaway() + state.loadFriction.breakaway() + brake;
        double drive = torque + state.cogging(place) + state.onLoad + stop;
        double now = after(was, drive, level, breakaway, 0, 0, kept, gain);
        double turn = half * (was + now);
        advance(now, place + half * now);
        motorWork += torque * turn;
        dissipated +=
                Math.abs(turn) * level + (0.5 * viscous * (was + now) - (stop + stops.stiffness() * depth)) * turn;
    }

    private void advance(double speed, double angle) {
        speedBefore = motorSpeed;
        motorSpeed = speed;
        loadSpeed = speed;
        motorAngle = angle;
        loadAngle = angle;
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
        double onLoad = state.onLoad + stop;
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
                + 0.5 * viscous * turn * (was + now)
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
    double kinetic() {
        return 0.5 * inertia * motorSpeed * motorSpeed;
    }

    @Override
    double elastic() {
        double depth = stops.depth(motorAngle);
        return 0.5 * stops.stiffness() * depth * depth;
    }

    @Override
    double inertiaAtLoad() {
        return inertia;
    }

    @Override
    void jump(double loadSpeed) {
        advance(loadSpeed, motorAngle);
        speedBefore = loadSpeed;
    }

    @Override
    void settle() {
        // Nothing gives way.
    }

    @Override
    void turn(double radians) {
        advance(0, motorAngle + radians);
        speedBefore = 0;
    }
}
