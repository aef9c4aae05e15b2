package org.axtrial.plant;

/**
 * Two masses with an elastic coupling, which may have a dead zone:
 *
 * <pre>
 * Jm·dωm/dt = T + T_cog(θm) − κ·Ts − friction of motor and brake
 * Jl·dωl/dt = Ts + T_gravity + T_stop − friction of load
 * Ts = k·x + d·(ωm − ωl), x = twist θm − θl less half the dead zone, 0 within it
 * </pre>
 *
 * <p>κ is 1/η where the motor drives, η' where it is driven. With a dead zone the flanks push and never pull.
 */
final class CompliantTrain extends Train {

    private final PlantState state;
    private final double step;
    private final double motorInertia;
    private final double loadInertia;
    private final StopContact stops;
    private final Kick free = new Kick();
    private final Kick atStop = new Kick();
    private final double forwardLoss;
    private final double backwardLoss;
    private final boolean lossless;

    private double stiffness;
    private double halfGap;
    private double damping;
    private double loadAngle;
    private double loadSpeed;
    private double motorSpeedBefore;
    private double loadSpeedBefore;

    /** What a sub-step width fixes. */
    private static final class Kick {
        private int count;
        private double half;
        private double motorGain;
        private double motorDecay;
        private double motorInverse;
        private double loadGain;
        private double loadDecay;
        private double loadInverse;
    }

    CompliantTrain(PlantSpec spec, PlantState state, double step) {
        this.state = state;
        this.step = step;
        this.motorInertia = spec.motorInertia();
        this.loadInertia = spec.loadInertia();
        this.stops = new StopContact(spec, loadInertia);
        Efficiency efficiency = spec.details().efficiency();
        this.forwardLoss = 1 / efficiency.driving() - 1;
        this.backwardLoss = 1 - efficiency.backDriving();
        this.lossless = efficiency.equals(Efficiency.IDEAL);
        parametersChanged();
        settle();
    }

    /** Hangs the load on its train before time begins. */
    private void settle() {
        double pull = state.pull;
        if (Math.abs(pull) > state.loadFriction.breakaway()) {
            loadAngle = pull / stiffness + Math.copySign(halfGap, pull);
        }
    }

    @Override
    void parametersChanged() {
        stiffness = state.coupling().stiffness() * state.stiffnessFactor;
        damping = state.coupling().damping();
        halfGap = state.backlash / 2;
        double reduced = motorInertia * loadInertia / (motorInertia + loadInertia);
        double viscous =
                Math.max(state.motorFriction.viscous() / motorInertia, state.loadFriction.viscous() / loadInertia);
        double resonance = Math.sqrt(stiffness / reduced);
        double contact = Math.sqrt((stiffness + stops.stiffness()) / loadInertia);
        prepare(free, subSteps(Math.max(resonance, viscous), step));
        prepare(atStop, subSteps(Math.max(Math.max(resonance, contact), viscous), step));
    }

    private void prepare(Kick kick, int count) {
        double width = step / count;
        kick.count = count;
        kick.half = width / 2;
        kick.motorGain = width / motorInertia;
        kick.motorDecay = kick.half * state.motorFriction.viscous() / motorInertia;
        kick.motorInverse = 1 / (1 + kick.motorDecay);
        kick.loadGain = width / loadInertia;
        kick.loadDecay = kick.half * state.loadFriction.viscous() / loadInertia;
        kick.loadInverse = 1 / (1 + kick.loadDecay);
    }

    @Override
    void step(double torque, double brake) {
        Kick kick = stops.near(loadAngle, loadSpeed * step * 2) ? atStop : free;
        int count = kick.count;
        for (int i = 0; i < count; i++) {
            kick(kick, torque, brake);
        }
    }

    private void kick(Kick kick, double torque, double brake) {
        double motorMid = 1.5 * motorSpeed - 0.5 * motorSpeedBefore;
        double loadMid = 1.5 * loadSpeed - 0.5 * loadSpeedBefore;
        double motorWas = motorSpeed;
        double loadWas = loadSpeed;
        double half = kick.half;
        double motorPlace = motorAngle + half * motorWas;
        double loadPlace = loadAngle + half * loadWas;

        double wound = wound(motorPlace - loadPlace);
        double tension = tension(wound, motorMid - loadMid);
        double depth = stops.depth(loadPlace);
        double stop = stops.torque(depth, loadMid);

        double motorLevel = state.motorFriction.level(motorMid) + brake;
        double loadLevel = state.loadFriction.level(loadMid);
        double forward = 0;
        double backward = 0;
        if (!lossless) {
            double size = Math.abs(tension);
            forward = size * (tension > 0 ? forwardLoss : backwardLoss);
            backward = size * (tension > 0 ? backwardLoss : forwardLoss);
        }
        double motorNow = after(
                motorWas,
                torque + state.cogging(motorPlace) - tension,
                motorLevel,
                state.motorFriction.breakaway() + brake,
                forward,
                backward,
                kick.motorGain,
                kick.motorDecay,
                kick.motorInverse);
        double loadNow = after(
                loadWas,
                tension + state.pull + stop,
                loadLevel,
                state.loadFriction.breakaway(),
                0,
                0,
                kick.loadGain,
                kick.loadDecay,
                kick.loadInverse);

        motorAngle = motorPlace + half * motorNow;
        loadAngle = loadPlace + half * loadNow;
        motorSpeed = motorNow;
        loadSpeed = loadNow;
        motorSpeedBefore = motorWas;
        loadSpeedBefore = loadWas;

        double motorTurn = half * (motorWas + motorNow);
        double loadTurn = half * (loadWas + loadNow);
        motorWork += torque * motorTurn;
        dissipated += Math.abs(motorTurn) * (motorLevel + (motorTurn > 0 ? forward : backward))
                + Math.abs(loadTurn) * loadLevel
                + 0.5
                        * (state.motorFriction.viscous() * motorTurn * (motorWas + motorNow)
                                + state.loadFriction.viscous() * loadTurn * (loadWas + loadNow))
                + (tension - stiffness * wound) * (motorTurn - loadTurn)
                - (stop + stops.stiffness() * depth) * loadTurn;
    }

    /** Twist beyond the dead zone, rad. */
    private double wound(double twist) {
        if (twist > halfGap) {
            return twist - halfGap;
        }
        return twist < -halfGap ? twist + halfGap : 0;
    }

    private double tension(double wound, double relativeSpeed) {
        double whole = stiffness * wound + damping * relativeSpeed;
        if (halfGap == 0) {
            return whole;
        }
        if (wound > 0) {
            return Math.max(0, whole);
        }
        return wound < 0 ? Math.min(0, whole) : 0;
    }

    @Override
    double loadAngle() {
        return loadAngle;
    }

    @Override
    double loadSpeed() {
        return loadSpeed;
    }

    @Override
    double kinetic() {
        return 0.5 * (motorInertia * motorSpeed * motorSpeed + loadInertia * loadSpeed * loadSpeed);
    }

    @Override
    double elastic() {
        double wound = wound(motorAngle - loadAngle);
        double depth = stops.depth(loadAngle);
        return 0.5 * (stiffness * wound * wound + stops.stiffness() * depth * depth);
    }

    @Override
    void turn(double radians) {
        motorAngle += radians;
        loadAngle += radians;
        motorSpeed = 0;
        loadSpeed = 0;
        motorSpeedBefore = 0;
        loadSpeedBefore = 0;
    }
}
