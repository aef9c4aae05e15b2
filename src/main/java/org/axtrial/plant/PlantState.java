package org.axtrial.plant;

/** Parameters of a plant that can change while it runs, in the form in which a step needs them. */
final class PlantState {

    private final PlantSpec spec;
    private final double coggingAmplitude;
    private final double coggingPerRadian;

    final FrictionLaw motorFriction;
    final FrictionLaw loadFriction;

    double pull;
    double backlash;
    double stiffnessFactor = 1;

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
        pull = spec.gravity() + share * spec.details().counterbalance();
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
