package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.plant.Cogging;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.Efficiency;
import org.axtrial.plant.EndStops;
import org.axtrial.plant.Friction;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.Stribeck;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.SimulationSpec.Load;
import org.axtrial.sim.SimulationSpec.Motor;
import org.axtrial.site.QuantityReader.Sign;

/** Reads what is told of the simulated mechanics beyond inertia, gravity and plain friction; all of it is optional. */
final class MechanicsReader {

    private static final double STRIBECK_RPM = 10;
    private static final long COGGING_PERIODS = 24;
    private static final double DAMPING_PERCENT = 2;
    private static final Duration LONGEST_DELAY = Duration.ofSeconds(10);

    /** Above it the train is rigid for every purpose, and only slow to simulate. */
    private static final double HIGHEST_RESONANCE = 5000;

    /** Frequency and damping of the load on its end stops: a hard rubber buffer, common practice, no source. */
    private static final double STOP_FREQUENCY = 200;

    private static final double STOP_DAMPING = 0.4;

    private final YamlMap motorMap;
    private final YamlMap loadMap;
    private final YamlMap brakeMap;
    private final QuantityReader quantities;
    private final boolean linear;

    MechanicsReader(YamlMap simulate, QuantityReader quantities, boolean linear) {
        motorMap = simulate.map("motor");
        loadMap = simulate.map("load");
        brakeMap = simulate.map("brake");
        this.quantities = quantities;
        this.linear = linear;
    }

    /** Empty if motor, load or scale is unknown; problems are told in the document. */
    Optional<PlantDetails> read(Optional<AxisScale> scale, Optional<Motor> motor, Optional<Load> load) {
        PlantDetails details = PlantDetails.PLAIN
                .withMotorFriction(motorFriction())
                .withCogging(cogging())
                .withEfficiency(efficiency())
                .withThermalTime(quantities
                        .time(motorMap, "thermalTime", Duration.ofSeconds(1), Duration.ofMinutes(100))
                        .orElse(PlantDetails.THERMAL_TIME));
        details = brake().map(details::withBrake).orElse(details);
        details = stribeck(load).map(details::withStribeck).orElse(details);
        OptionalDouble counterbalance = counterbalance(scale);
        if (counterbalance.isPresent()) {
            details = details.withCounterbalance(counterbalance.getAsDouble());
        }
        details = coupling(scale, motor, load).map(details::withCoupling).orElse(details);
        details = endStops(scale, motor, load).map(details::withEndStops).orElse(details);
        return scale.isEmpty() || motor.isEmpty() || load.isEmpty() ? Optional.empty() : Optional.of(details);
    }

    private Friction motorFriction() {
        OptionalDouble viscous = quantities.value(
                motorMap,
                "viscousFriction",
                Sense.VISCOUS_FRICTION,
                Sign.NOT_NEGATIVE,
                Unit.NEWTON_METRE_SECOND_PER_RADIAN);
        return Friction.of(
                viscous.orElse(0), torque(motorMap, "coulombFriction").orElse(0));
    }

    private Cogging cogging() {
        double amplitude = torque(motorMap, "coggingTorque").orElse(0);
        long periods = motorMap.integer("coggingPeriods").orElse(COGGING_PERIODS);
        return amplitude == 0 ? Cogging.NONE : new Cogging(amplitude, (int) periods);
    }

    private Efficiency efficiency() {
        double driving = quantities.percent(loadMap, "efficiency", 1, 100, 100);
        double backDriving = quantities.percent(loadMap, "backDrivingEfficiency", 0, 100, driving);
        return new Efficiency(driving / 100, backDriving / 100);
    }

    private Optional<HoldingBrake> brake() {
        OptionalDouble holding = torque(brakeMap, "torque");
        Duration engage = quantities
                .time(brakeMap, "engageDelay", Duration.ZERO, LONGEST_DELAY)
                .orElse(Duration.ZERO);
        Duration release = quantities
                .time(brakeMap, "releaseDelay", Duration.ZERO, LONGEST_DELAY)
                .orElse(Duration.ZERO);
        return holding.isPresent()
                ? Optional.of(new HoldingBrake(holding.getAsDouble(), engage, release))
                : Optional.empty();
    }

    private Optional<Stribeck> stribeck(Optional<Load> load) {
        OptionalDouble breakaway = torque(loadMap, "breakawayFriction");
        double rpm = quantities
                .value(loadMap, "stribeckSpeed", Sense.SHAFT_SPEED, Sign.POSITIVE, Unit.REVOLUTION_PER_MINUTE)
                .orElse(STRIBECK_RPM);
        if (loadMap.has("stribeckSpeed")) {
            needs("stribeckSpeed", "breakawayFriction", "the level of friction that it belongs to");
        }
        if (breakaway.isEmpty() || load.isEmpty()) {
            return Optional.empty();
        }
        if (breakaway.getAsDouble() < load.get().coulomb()) {
            loadMap.problem(
                    "breakawayFriction",
                    "expected at least coulombFriction, " + load.get().coulomb() + " Nm, found \""
                            + loadMap.text("breakawayFriction").orElse("") + "\"");
            return Optional.empty();
        }
        return Optional.of(new Stribeck(breakaway.getAsDouble(), rpm * 2 * Math.PI / 60));
    }

    /** At the motor shaft, in the sense of the counts. */
    private OptionalDouble counterbalance(Optional<AxisScale> scale) {
        OptionalDouble told = linear
                ? quantities.value(loadMap, "counterbalance", Sense.FORCE, Sign.ANY, Unit.NEWTON)
                : quantities.value(loadMap, "counterbalance", Sense.TORQUE, Sign.ANY, Unit.NEWTON_METRE);
        if (told.isEmpty() || scale.isEmpty()) {
            return OptionalDouble.empty();
        }
        double perUnit = scale.get()
                .leadIfLinear()
                .map(lead -> lead.in(Unit.METRE) / scale.get().motorPerLoad() / (2 * Math.PI))
                .orElse(1.0);
        return OptionalDouble.of(told.getAsDouble() * perUnit * scale.get().direction());
    }

    private Optional<Coupling> coupling(Optional<AxisScale> scale, Optional<Motor> motor, Optional<Load> load) {
        OptionalDouble stiffness =
                quantities.value(loadMap, "stiffness", Sense.STIFFNESS, Sign.POSITIVE, Unit.NEWTON_METRE_PER_RADIAN);
        double damping = quantities.percent(loadMap, "damping", 0, 100, DAMPING_PERCENT) / 100;
        Optional<Quantity> backlash = quantities.read(loadMap, "backlash", Sense.POSITION, Sign.NOT_NEGATIVE);
        for (String key : List.of("damping", "backlash")) {
            if (loadMap.has(key)) {
                needs(key, "stiffness", "a rigid train has none");
            }
        }
        if (stiffness.isEmpty() || scale.isEmpty() || motor.isEmpty() || load.isEmpty()) {
            return Optional.empty();
        }
        double ofMotor = motor.get().inertia();
        double ofLoad = load.get().reflectedInertia();
        if (!(ofLoad > 0)) {
            loadMap.problem(
                    "stiffness",
                    "expected a load that is more than 0 behind a stiffness; tell its " + (linear ? "mass" : "inertia")
                            + ", or leave stiffness out");
            return Optional.empty();
        }
        double reduced = ofMotor * ofLoad / (ofMotor + ofLoad);
        double most = reduced * Math.pow(2 * Math.PI * HIGHEST_RESONANCE, 2);
        if (stiffness.getAsDouble() > most) {
            loadMap.problem(
                    "stiffness",
                    "motor and load would swing faster than " + Math.round(HIGHEST_RESONANCE) + " Hz; expected at most "
                            + (long) most + " Nm/rad, or leave it out: the train is rigid");
            return Optional.empty();
        }
        double gap = backlash.map(told -> radians(scale.get(), told)).orElse(0.0);
        return Optional.of(Coupling.damped(stiffness.getAsDouble(), damping, ofMotor, ofLoad)
                .withBacklash(gap));
    }

    private Optional<EndStops> endStops(Optional<AxisScale> scale, Optional<Motor> motor, Optional<Load> load) {
        List<Quantity> told = new ArrayList<>();
        loadMap.texts("endStops")
                .forEach((path, text) -> quantities
                        .check(loadMap.document(), path, text, Sense.POSITION)
                        .ifPresent(told::add));
        if (told.size() != 2 || scale.isEmpty() || motor.isEmpty() || load.isEmpty()) {
            return Optional.empty();
        }
        double low = radians(scale.get(), told.get(0));
        double high = radians(scale.get(), told.get(1));
        if (!(low < 0 && high > 0)) {
            loadMap.problem(
                    "endStops",
                    "expected a position below the start first, then one above it, because they count from the start;"
                            + " found [\"" + told.get(0) + "\", \"" + told.get(1) + "\"]");
            return Optional.empty();
        }
        double inertia = load.get().reflectedInertia();
        double moved = loadMap.has("stiffness") && inertia > 0
                ? inertia
                : inertia + motor.get().inertia();
        double stiffness = moved * Math.pow(2 * Math.PI * STOP_FREQUENCY, 2);
        boolean mirrored = scale.get().direction() < 0;
        return Optional.of(new EndStops(mirrored ? -high : low, mirrored ? -low : high, stiffness, STOP_DAMPING));
    }

    private void needs(String key, String other, String why) {
        if (!loadMap.has(other)) {
            loadMap.keyProblem(key, key + " needs " + other + ": " + why);
        }
    }

    /** A distance at the load as an angle of the motor shaft, in the sense of the axis. */
    private static double radians(AxisScale scale, Quantity distance) {
        return scale.convert(distance, Unit.COUNT).value() / scale.countsPerMotorRevolution() * 2 * Math.PI;
    }

    private OptionalDouble torque(YamlMap map, String key) {
        return quantities.value(map, key, Sense.TORQUE, Sign.NOT_NEGATIVE, Unit.NEWTON_METRE);
    }
}
