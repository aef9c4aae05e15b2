package org.axtrial.plant;

import java.time.Duration;
import java.util.Optional;

/**
 * What may be told of the mechanics beyond inertia, gravity and plain friction. {@link #PLAIN} leaves all of it out: a
 * rigid train without loss, cogging and end stops.
 *
 * @param motorFriction friction of the motor itself, before gearbox or coupling
 * @param stribeck higher friction of the load at rest
 * @param coupling elastic train; without it motor and load are one
 * @param efficiency of gearbox or screw
 * @param counterbalance torque on the load in N·m that counters gravity, same sign convention as gravity
 * @param cogging of the motor
 * @param brake holding brake; without it a load with gravity gets one of two and a half times its torque without delays
 * @param endStops of the load
 * @param thermalTime thermal time constant of the winding, positive
 */
public record PlantDetails(
        Friction motorFriction,
        Optional<Stribeck> stribeck,
        Optional<Coupling> coupling,
        Efficiency efficiency,
        double counterbalance,
        Cogging cogging,
        Optional<HoldingBrake> brake,
        Optional<EndStops> endStops,
        Duration thermalTime) {

    /** Of the winding, where nothing else is told; small servo motors have minutes (common practice, no source). */
    public static final Duration THERMAL_TIME = Duration.ofMinutes(4);

    /** A rigid train and nothing else. */
    public static final PlantDetails PLAIN = new PlantDetails(
            Friction.NONE,
            Optional.empty(),
            Optional.empty(),
            Efficiency.IDEAL,
            0,
            Cogging.NONE,
            Optional.empty(),
            Optional.empty(),
            THERMAL_TIME);

    public PlantDetails {
        Require.finite("counterbalance torque", counterbalance);
        if (thermalTime.isNegative() || thermalTime.isZero()) {
            throw new IllegalArgumentException("thermal time constant must be positive, got " + thermalTime);
        }
    }

    /** The same with another friction of the motor. */
    public PlantDetails withMotorFriction(Friction other) {
        return new PlantDetails(
                other, stribeck, coupling, efficiency, counterbalance, cogging, brake, endStops, thermalTime);
    }

    /** The same with higher friction of the load at rest. */
    public PlantDetails withStribeck(Stribeck other) {
        return new PlantDetails(
                motorFriction,
                Optional.of(other),
                coupling,
                efficiency,
                counterbalance,
                cogging,
                brake,
                endStops,
                thermalTime);
    }

    /** The same with an elastic train. */
    public PlantDetails withCoupling(Coupling other) {
        return new PlantDetails(
                motorFriction,
                stribeck,
                Optional.of(other),
                efficiency,
                counterbalance,
                cogging,
                brake,
                endStops,
                thermalTime);
    }

    /** The same with another efficiency. */
    public PlantDetails withEfficiency(Efficiency other) {
        return new PlantDetails(
                motorFriction, stribeck, coupling, other, counterbalance, cogging, brake, endStops, thermalTime);
    }

    /** The same with another counterbalance torque in N·m. */
    public PlantDetails withCounterbalance(double torque) {
        return new PlantDetails(
                motorFriction, stribeck, coupling, efficiency, torque, cogging, brake, endStops, thermalTime);
    }

    /** The same with another cogging. */
    public PlantDetails withCogging(Cogging other) {
        return new PlantDetails(
                motorFriction, stribeck, coupling, efficiency, counterbalance, other, brake, endStops, thermalTime);
    }

    /** The same with another brake. */
    public PlantDetails withBrake(HoldingBrake other) {
        return new PlantDetails(
                motorFriction,
                stribeck,
                coupling,
                efficiency,
                counterbalance,
                cogging,
                Optional.of(other),
                endStops,
                thermalTime);
    }

    /** The same with end stops. */
    public PlantDetails withEndStops(EndStops other) {
        return new PlantDetails(
                motorFriction,
                stribeck,
                coupling,
                efficiency,
                counterbalance,
                cogging,
                brake,
                Optional.of(other),
                thermalTime);
    }

    /** The same with another thermal time constant of the winding. */
    public PlantDetails withThermalTime(Duration other) {
        return new PlantDetails(
                motorFriction, stribeck, coupling, efficiency, counterbalance, cogging, brake, endStops, other);
    }
}
