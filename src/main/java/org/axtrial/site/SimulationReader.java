package org.axtrial.site;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.plant.PlantDetails;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.SimulationSpec.Feedback;
import org.axtrial.sim.SimulationSpec.LinearLoad;
import org.axtrial.sim.SimulationSpec.Load;
import org.axtrial.sim.SimulationSpec.Loops;
import org.axtrial.sim.SimulationSpec.Motor;
import org.axtrial.sim.SimulationSpec.RotaryLoad;
import org.axtrial.sim.SimulationSpec.Wire;
import org.axtrial.site.QuantityReader.Sign;

/** Reads how an axis is simulated, and turns its quantities into the SI units of the simulation. */
final class SimulationReader {

    private static final Duration SHORTEST_REPLY = Duration.ofNanos(500_000);
    private static final Duration LONGEST_REPLY = Duration.ofNanos(1_500_000);

    private final YamlMap axis;
    private final YamlMap map;
    private final QuantityReader quantities;
    private final String name;
    private final boolean linear;
    private final long place;

    SimulationReader(YamlMap axis, QuantityReader quantities, String name, boolean linear, long place) {
        this.axis = axis;
        map = axis.map("simulate");
        this.quantities = quantities;
        this.name = name;
        this.linear = linear;
        this.place = place;
    }

    /** A thousandth of a motor revolution, at least one count. */
    static double smallWindow(double countsPerMotorRevolution) {
        return Math.max(1, Math.rint(countsPerMotorRevolution / 1000));
    }

    Optional<SimulationSpec> read(Optional<AxisScale> scale) {
        Optional<Motor> motor = motor();
        Optional<Load> load = load(scale);
        Optional<Feedback> feedback = feedback(scale);
        Optional<Loops> loops = loops(scale, feedback);
        Optional<PlantDetails> details = new MechanicsReader(map, quantities, linear).read(scale, motor, load);
        Wire wire = wire();
        long seed = map.integer("seed").orElse(place);
        if (motor.isEmpty()
                || load.isEmpty()
                || feedback.isEmpty()
                || loops.isEmpty()
                || details.isEmpty()
                || axis.document().complainedWithin(map.path())) {
            return Optional.empty();
        }
        return Optional.of(
                new SimulationSpec(motor.get(), load.get(), feedback.get(), loops.get(), wire, seed, details.get()));
    }

    private Optional<Motor> motor() {
        YamlMap motor = map.map("motor");
        OptionalDouble torque = value(motor, "ratedTorque", Sense.TORQUE, Sign.POSITIVE, Unit.NEWTON_METRE);
        double peak = percent(motor, "maxTorque", 1, 1000, 300);
        OptionalDouble inertia = value(motor, "inertia", Sense.INERTIA, Sign.POSITIVE, Unit.KILOGRAM_SQUARE_METRE);
        OptionalDouble speed = value(motor, "maxSpeed", Sense.SHAFT_SPEED, Sign.POSITIVE, Unit.REVOLUTION_PER_MINUTE);
        if (torque.isEmpty() || inertia.isEmpty() || speed.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Motor(torque.getAsDouble(), peak, inertia.getAsDouble(), speed.getAsDouble()));
    }

    private Optional<Load> load(Optional<AxisScale> scale) {
        YamlMap load = map.map("load");
        OptionalDouble inertia = value(load, "inertia", Sense.INERTIA, Sign.NOT_NEGATIVE, Unit.KILOGRAM_SQUARE_METRE);
        OptionalDouble mass = value(load, "mass", Sense.MASS, Sign.NOT_NEGATIVE, Unit.KILOGRAM);
        OptionalDouble gravity = linear
                ? value(load, "gravity", Sense.FORCE, Sign.ANY, Unit.NEWTON)
                : value(load, "gravity", Sense.TORQUE, Sign.ANY, Unit.NEWTON_METRE);
        double viscous = value(
                        load,
                        "viscousFriction",
                        Sense.VISCOUS_FRICTION,
                        Sign.NOT_NEGATIVE,
                        Unit.NEWTON_METRE_SECOND_PER_RADIAN)
                .orElse(0);
        double coulomb = value(load, "coulombFriction", Sense.TORQUE, Sign.NOT_NEGATIVE, Unit.NEWTON_METRE)
                .orElse(0);
        String needed = linear ? "mass" : "inertia";
        String wrong = linear ? "inertia" : "mass";
        String kind = linear ? "linear" : "rotary";
        if (load.has(wrong)) {
            load.keyProblem(wrong, "axis " + name + " is " + kind + ": its load is told by " + needed);
        }
        if (load.isGiven() && !load.has(needed)) {
            load.missing(needed, "missing: axis " + name + " is " + kind + " and needs the " + needed + " it moves");
        }
        OptionalDouble moved = linear ? mass : inertia;
        if (moved.isEmpty() || scale.isEmpty()) {
            return Optional.empty();
        }
        double ratio = scale.get().motorPerLoad();
        // The file tells gravity in the sense of the axis, the simulation in the sense of the counts.
        double pull = gravity.isPresent() ? gravity.getAsDouble() * scale.get().direction() : 0;
        return Optional.of(scale.get()
                .leadIfLinear()
                .<Load>map(lead ->
                        new LinearLoad(moved.getAsDouble(), lead.in(Unit.METRE) / ratio, pull, viscous, coulomb))
                .orElseGet(() -> new RotaryLoad(moved.getAsDouble(), ratio, pull, viscous, coulomb)));
    }

    private Optional<Feedback> feedback(Optional<AxisScale> scale) {
        YamlMap feedback = map.map("feedback");
        long counts = feedback.integer("countsPerRevolution")
                .orElse(scale.map(AxisScale::encoderCounts).orElse(1L));
        Optional<long[]> gear = ScaleReader.gear(feedback);
        if (!feedback.has("electronicGear")) {
            gear = scale.map(known -> new long[] {known.gearNumerator(), known.gearDenominator()});
        }
        double start = value(feedback, "start", Sense.START_COUNTS, Sign.ANY, Unit.COUNT)
                .orElse(0);
        double noise = value(feedback, "noise", Sense.START_COUNTS, Sign.NOT_NEGATIVE, Unit.COUNT)
                .orElse(0);
        long turns = feedback.integer("turns").orElse(Feedback.MULTI_TURN);
        if (start != Math.rint(start) || Math.abs(start) > 1L << 53) {
            feedback.problem("start", "expected a whole number of counts, found \"" + start + " count\"");
            return Optional.empty();
        }
        if (scale.isEmpty()) {
            return Optional.empty();
        }
        return gear.map(ratio -> new Feedback(counts, ratio[0], ratio[1], (long) start, noise, turns));
    }

    private Optional<Loops> loops(Optional<AxisScale> scale, Optional<Feedback> feedback) {
        YamlMap loops = map.map("loops");
        double torque = value(loops, "torqueBandwidth", Sense.FREQUENCY, Sign.POSITIVE, Unit.HERTZ)
                .orElse(1000);
        double speed = value(loops, "speedBandwidth", Sense.FREQUENCY, Sign.POSITIVE, Unit.HERTZ)
                .orElse(80);
        double gain = value(loops, "positionGain", Sense.GAIN, Sign.POSITIVE, Unit.PER_SECOND)
                .orElse(80);
        double forward = percent(loops, "speedFeedForward", 0, 100, 0) / 100;
        Optional<Quantity> window = quantities.read(loops, "inPositionWindow", Sense.POSITION, Sign.POSITIVE);
        Duration time = quantities
                .time(loops, "inPositionTime", Duration.ZERO, Duration.ofSeconds(10))
                .orElse(Duration.ofMillis(10));
        Optional<Quantity> trip = quantities.read(loops, "followingErrorTrip", Sense.POSITION, Sign.POSITIVE);
        if (scale.isEmpty() || feedback.isEmpty()) {
            return Optional.empty();
        }
        double turn = feedback.get().countsPerMotorRevolution();
        return Optional.of(new Loops(
                torque,
                speed,
                gain,
                forward,
                window.map(given -> counts(scale.get(), given)).orElse(smallWindow(turn)),
                time,
                trip.map(given -> counts(scale.get(), given)).orElse(2 * turn)));
    }

    private Wire wire() {
        YamlMap wire = map.map("wire");
        Duration most = Duration.ofSeconds(10);
        Duration shortest =
                quantities.time(wire, "shortestReply", Duration.ZERO, most).orElse(SHORTEST_REPLY);
        Optional<Duration> longest = quantities.time(wire, "longestReply", Duration.ZERO, most);
        if (longest.isPresent() && longest.get().compareTo(shortest) < 0) {
            wire.problem(
                    "longestReply",
                    "expected at least shortestReply, " + QuantityReader.print(shortest) + ", found \""
                            + QuantityReader.print(longest.get()) + "\"");
            return new Wire(shortest, shortest);
        }
        Duration fallback = shortest.compareTo(LONGEST_REPLY) > 0 ? shortest : LONGEST_REPLY;
        return new Wire(shortest, longest.orElse(fallback));
    }

    private static double counts(AxisScale scale, Quantity distance) {
        return scale.convert(distance, Unit.COUNT).value();
    }

    private OptionalDouble value(YamlMap owner, String key, Sense sense, Sign sign, Unit unit) {
        return quantities.value(owner, key, sense, sign, unit);
    }

    private double percent(YamlMap owner, String key, double least, double most, double fallback) {
        return quantities.percent(owner, key, least, most, fallback);
    }
}
