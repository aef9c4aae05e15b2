package org.axtrial.plant;

/** Parameters of a plant that can change while it runs, in the form in which a step needs them. */
final class PlantState {

    private final PlantSpec spec;
    private final double coggingAmplitude;
    private final double coggingPerRadian;

    final FrictionLaw motorFriction;
    final FrictionLaw loadFriction;

    /** Torque of gravity and counterbalance on the load, that of a carried load included, N·m. */
    double pull;
    /** Torque on the load from outside, N·m. */
    double outer;
    /** Both together. */
    double onLoad;
    /** Inertia that is carried beside the own load, kg·m². */
    double carriedInertia;

    double backlash;
    double stiffnessFactor = 1;

    private double counterbalanceShare;
    private double carriedPull;

    PlantState(PlantSpec spec) {
        this.spec = spec;
        this.motorFriction = new FrictionLaw(spec.details().motorFriction());
        this.loadFriction = new FrictionLaw(spec.wholeLoadFriction());
        this.coggingAmplitude = spec.details().cogging().amplitude();
        this.coggingPerRadian = spec.details().cogging().periods() / (2 * Math.PI);
        this.backlash = spec.details().coupling().map(Coupling::backlash).orElse(0.0);
        counterbalance(1);
    }

    Coupling coupling() {
        return spec.details().coupling().orElseThrow();
    }

    void counterbalance(double share) {
        counterbalanceShare = share;
        pullChanged();
    }

    /** Inertia and torque of gravity come on top of the own load, or go with negative values. */
    void carry(double inertia, double torque) {
        // What rounding leaves of a load that is gone must not become negative.
        carriedInertia = Math.max(0, carriedInertia + inertia);
        carriedPull += torque;
        pullChanged();
    }

    void outer(double torque) {
        outer = torque;
        onLoad = pull + torque;
    }

    private void pullChanged() {
        pull = spec.gravity() + counterbalanceShare * spec.details().counterbalance() + carriedPull;
        onLoad = pull + outer;
    }

    double loadInertia() {
        return spec.loadInertia() + carriedInertia;
    }

    /** Torque of cogging at a motor angle, N·m. */
    double cogging(double angle) {
        return coggingAmplitude == 0 ? 0 : -coggingAmplitude * SineWave.sin(angle * coggingPerRadian);
    }

    /** Energy of cogging at a motor angle, J; 0 at angle 0. */
    double coggingEnergy(double angle) {
        double periods = spec.details().cogging().periods();
        return coggingAmplitude / periods * (1 - SineWave.cos(angle * coggingPerRadian));
    }
}
