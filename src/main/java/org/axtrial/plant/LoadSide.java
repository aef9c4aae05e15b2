package org.axtrial.plant;

/**
 * The load of a plant in its own coordinate.
 *
 * @param plant the plant
 * @param perRadian r, travel of the load in one rad of the motor: lead/2π in m, or 1 over the gear ratio; negative where
 *     positive travel is negative motion of the motor; not 0
 */
public record LoadSide(Plant plant, double perRadian) {

    public LoadSide {
        Require.finite("travel in one rad", perRadian);
        if (perRadian == 0) {
            throw new IllegalArgumentException("travel in one rad must not be 0");
        }
    }

    /** m or rad from the start. */
    double position() {
        return plant.loadAngle() * perRadian;
    }

    /** m/s or rad/s. */
    double speed() {
        return plant.loadSpeed() * perRadian;
    }

    /** What a blow on the load meets at once, kg or kg·m². */
    double mass() {
        return plant.inertiaAtLoad() / (perRadian * perRadian);
    }

    /** A force on the load, N or N·m, as torque at the motor shaft in N·m. */
    double torque(double force) {
        return force * perRadian;
    }

    /** A mass in kg or kg·m² as inertia at the motor shaft in kg·m². */
    double inertia(double mass) {
        return mass * perRadian * perRadian;
    }
}
