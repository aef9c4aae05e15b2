package org.axtrial.plant;

/**
 * The mechanics of one axis, all referred to the motor shaft.
 *
 * @param motorInertia of rotor and all that turns rigidly with it in kg·m², positive
 * @param loadInertia reflected inertia of the load in kg·m², not negative; positive behind an elastic train
 * @param loadFriction friction of the load
 * @param gravity torque of gravity on the load in N·m; positive pulls towards positive positions
 * @param ratedTorque N·m, positive; it brings the winding to its rated temperature
 * @param details what else is told
 */
public record PlantSpec(
        double motorInertia,
        double loadInertia,
        Friction loadFriction,
        double gravity,
        double ratedTorque,
        PlantDetails details) {

    public PlantSpec {
        Require.positive("motor inertia", motorInertia);
        Require.notNegative("load inertia", loadInertia);
        Require.finite("torque of gravity", gravity);
        Require.positive("rated torque", ratedTorque);
        if (details.coupling().isPresent() && loadInertia == 0) {
            throw new IllegalArgumentException("an elastic train needs a load inertia of more than 0");
        }
    }

    /** A rigid train without anything else. */
    public static PlantSpec rigid(
            double motorInertia, double loadInertia, Friction friction, double gravity, double ratedTorque) {
        return new PlantSpec(motorInertia, loadInertia, friction, gravity, ratedTorque, PlantDetails.PLAIN);
    }

    /** The same with other details. */
    public PlantSpec with(PlantDetails other) {
        return new PlantSpec(motorInertia, loadInertia, loadFriction, gravity, ratedTorque, other);
    }

    /** Friction of the load, its level at rest included. */
    Friction wholeLoadFriction() {
        return details.stribeck().map(loadFriction::with).orElse(loadFriction);
    }

    /** The brake, told or taken for granted. */
    public HoldingBrake brake() {
        return details.brake().orElseGet(() -> HoldingBrake.immediate(BRAKE_RESERVE * Math.abs(gravity)));
    }

    /** Holding torque of a brake over the torque of gravity; common practice is two to three. */
    private static final double BRAKE_RESERVE = 2.5;
}
