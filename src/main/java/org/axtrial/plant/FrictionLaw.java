package org.axtrial.plant;

/** Friction of one inertia, with a factor that can change while it runs. */
final class FrictionLaw {

    private final Friction nominal;
    private final double excess;
    private final double perSquaredSpeed;

    private double factor;
    private double viscous;
    private double coulomb;
    private double scaledExcess;
    private double breakaway;

    FrictionLaw(Friction friction) {
        this.nominal = friction;
        this.excess = friction.stribeck().map(Stribeck::breakaway).orElse(friction.coulomb()) - friction.coulomb();
        double speed = friction.stribeck().map(Stribeck::speed).orElse(1.0);
        this.perSquaredSpeed = 1 / (speed * speed);
        factor(1);
    }

    void factor(double share) {
        factor = share;
        viscous = nominal.viscous() * share;
        coulomb = nominal.coulomb() * share;
        scaledExcess = excess * share;
        breakaway = coulomb + scaledExcess;
    }

    double factor() {
        return factor;
    }

    double viscous() {
        return viscous;
    }

    /** Dry friction at a speed, N·m. */
    double level(double speed) {
        return scaledExcess == 0 ? coulomb : coulomb + scaledExcess / (1 + speed * speed * perSquaredSpeed);
    }

    /** Dry friction at rest, N·m. */
    double breakaway() {
        return breakaway;
    }
}
