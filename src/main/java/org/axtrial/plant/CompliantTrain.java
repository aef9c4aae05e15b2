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
    private final StopContact stops;
    private final Kick free = new Kick();
    private final Kick atStop = new Kick();
    private final double forwardLoss;
    private final double backwardLoss;
    private final boolean lossless;

    private double loadInertia;
    private double stiffness;
    private double halfGap;
    private double damping;
    private double motorSpeedBefore;
    private double loadSpeedBefore;

    /** What a sub-step width fixes. */
    private static final class Kick {
        private int count;
        private double half;
        private double motorKept;
        private double motorGain;
        private double loadKept;
        private double loadGain;
    }

    CompliantTrain(PlantSpec spec, PlantState state, double step) {
        this.state = state;
        this.step = step;
        this.motorInertia = spec.motorInertia();
        this.stops = new StopContact(spec, spec.loadInertia());
        Efficiency efficiency = spec.details().efficiency();
        this.forwardLoss = 1 / efficiency.driving() - 1;
        this.backwardLoss = 1 - efficiency.backDriving();
        this.lossless = efficiency.equals(Efficiency.IDEAL);
        parametersChanged();
        settle();
    }

    @Override
    void settle() {
        double pull = state.pull;
        if (Math.abs(pull) > state.loadFriction.breakaway()) {
            loadAngle = motorAngle + pull / stiffness + Math.copySign(halfGap, pull);
        }
    }

    @Override
    void parametersChanged() {
        loadInertia = state.loadInertia();
        stiffness = state.coupling().stiffness() * state.stiffnessFactor;
        damping = state.coupling().damping();
        halfGap = state.backlash / 2;
        double reduced = motorInertia * loadInertia / (motorInertia + loadInertia);
        double viscous =
                Math.max(state.motorFriction.viscous() / motorInertia, state.loadFriction.viscous() / loadInertia);
        double resonance = Math.sqrt(stiffness / reduced);
        double contact = stops.stiffness() == 0 ? 0 : stops.rate(loadInertia, stiffness);
        prepare(free, subSteps(Math.max(resonance, viscous), step));
        prepare(atStop, subSteps(Math.max(Math.max(resonance, contact), viscous), step));
    }

    private void prepare(Kick kick, int count) {
        double width = step / count;
        kick.count = count;
        kick.half = width / 2;
        double motorDecay = kick.half * state.motorFriction.viscous() / motorInertia;
        kick.motorKept = (1 - motorDecay) / (1 + motorDecay);
        kick.motorGain = width / motorInertia / (1 + motorDecay);
        double loadDecay = kick.half * state.loadFriction.viscous() / loadInertia;
        kick.loadKept = (1 - loadDecay) / (1 + loadDecay);
        kick.loadGain = width / loadInertia / (1 + loadDecay);
    }

    @Override
    void step(double torque, double brake) {
        if (stops.near(loadAngle, loadSpeed * step * 2)) {
            for (int i = 0; i < atStop.count; i++) {
                kick(atStop, torque, brake, true);
            }
        } else {
            for (int i = 0; i < free.count; i++) {
                kick(free, torque, brake, false);
            }
        }
    }

    private void kick(Kick kick, double torque, double brake, boolean near) {
        FrictionLaw motorFriction = state.motorFriction;
        FrictionLaw loadFriction = state.loadFriction;
        double motorWas = motorSpeed;
        double loadWas = loadSpeed;
        double motorMid = 1.5 * motorWas - 0.5 * motorSpeedBefore;
        double loadMid = 1.5 * loadWas - 0.5 * loadSpeedBefore;
        double half = kick.half;
        double motorPlace = motorAngle + half * motorWas;
        double loadPlace = loadAngle + half * loadWas;

        double wound = wound(motorPlace - loadPlace);
        double tension = tension(wound, motorMid - loadMid);
        double depth = near ? stops.depth(loadPlace) : 0;
        double stop = near ? stops.torque(depth, loadMid) : 0;
        double forward = lossless ? 0 : Math.abs(tension) * (tension > 0 ? forwardLoss : backwardLoss);
        double backward = lossless ? 0 : Math.abs(tension) * (tension > 0 ? backwardLoss : forwardLoss);

        double motorLevel = motorFriction.level(motorMid) + brake;
        double motorNow = after(
                motorWas,
                torque + state.cogging(motorPlace) - tension,
                motorLevel,
                motorFriction.breakaway() + brake,
                forward,
                backward,
                kick.motorKept,
                kick.motorGain);
        double loadLevel = loadFriction.level(loadMid);
        double loadNow = after(
                loadWas,
                state.onLoad + stop + tension,
                loadLevel,
                loadFriction.breakaway(),
                0,
                0,
                kick.loadKept,
                kick.loadGain);

        motorAngle = motorPlace + half * motorNow;
        loadAngle = loadPlace + half * loadNow;
        motorSpeed = motorNow;
        loadSpeed = loadNow;
        motorSpeedBefore = motorWas;
        loadSpeedBefore = loadWas;

        double motorTwice = motorWas + motorNow;
        double loadTwice = loadWas + loadNow;
        motorWork += torque * (half * motorTwice);
        dissipated += half
                * (Math.abs(motorTwice) * (motorLevel + (motorTwice > 0 ? forward : backward))
                        + Math.abs(loadTwice) * loadLevel
                        + 0.5 * motorFriction.viscous() * motorTwice * motorTwice
                        + 0.5 * loadFriction.viscous() * loadTwice * loadTwice
                        + (tension - stiffness * wound) * (motorTwice - loadTwice)
                        - (stop + stops.stiffness() * depth) * loadTwice);
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
        return whole * wound > 0 ? whole : 0;
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
    double inertiaAtLoad() {
        return loadInertia;
    }

    @Override
    void jump(double speed) {
        loadSpeed = speed;
        loadSpeedBefore = speed;
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
