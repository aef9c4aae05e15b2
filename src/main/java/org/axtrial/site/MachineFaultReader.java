package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.MachineFault;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.SwitchInput;
import org.axtrial.site.QuantityReader.Sign;

/** Reads what shall be wrong with a simulated machine, for training and rehearsal. */
final class MachineFaultReader {

    private static final Duration LONGEST = Duration.ofHours(24);
    private static final List<String> ALL_KEYS = List.of(
            "factor",
            "counts",
            "angle",
            "torque",
            "positionGain",
            "speedGain",
            "resonance",
            "holds",
            "input",
            "active",
            "code",
            "lasts",
            "after");

    /** The keys that each kind needs; {@code after} may be given where the kind has it. */
    private static final Map<String, Set<String>> KEYS = keys();

    private final YamlMap simulate;
    private final QuantityReader quantities;

    MachineFaultReader(YamlMap simulate, QuantityReader quantities) {
        this.simulate = simulate;
        this.quantities = quantities;
    }

    /** The kinds by their words. */
    static Set<String> kinds() {
        return KEYS.keySet();
    }

    private static Map<String, Set<String>> keys() {
        Map<String, Set<String>> keys = new LinkedHashMap<>();
        keys.put("wrong gear", Set.of("factor"));
        keys.put("wrong sign", Set.of());
        keys.put("detuned gains", Set.of("positionGain", "speedGain"));
        keys.put("noisy encoder", Set.of("counts"));
        keys.put("loose coupling", Set.of("resonance"));
        keys.put("backlash", Set.of("angle"));
        keys.put("worn brake", Set.of("holds"));
        keys.put("more friction", Set.of("factor", "after"));
        keys.put("encoder slip", Set.of("angle", "torque", "after"));
        keys.put("stuck switch", Set.of("input", "active", "after"));
        keys.put("switch pressed", Set.of("input", "after"));
        keys.put("switch released", Set.of("input", "after"));
        keys.put("turned by hand", Set.of("angle", "after"));
        keys.put("drive trip", Set.of("code", "after"));
        keys.put("lost zero", Set.of("counts", "after"));
        keys.put("cable pulled", Set.of("lasts", "after"));
        keys.put("power cycle", Set.of("lasts", "after"));
        return keys;
    }

    /** The axis with its faults; tells every fault that the axis cannot have. */
    SimulationSpec in(SimulationSpec sound) {
        List<MachineFault.Onset> faults = new ArrayList<>();
        SimulationSpec made = sound;
        for (YamlMap map : simulate.blocks("machineFaults")) {
            Optional<MachineFault.Onset> onset = onset(map, quantities);
            if (onset.isEmpty()) {
                continue;
            }
            faults.add(onset.get());
            try {
                if (onset.get().fault() instanceof MachineFault.Made fault) {
                    made = fault.in(made);
                }
            } catch (IllegalArgumentException | ArithmeticException e) {
                map.problem("kind", "this axis cannot have it: " + e.getMessage());
            }
        }
        return sound.withFaults(faults);
    }

    /** One entry; every problem of it is told. */
    static Optional<MachineFault.Onset> onset(YamlMap map, QuantityReader quantities) {
        Optional<String> kind = map.text("kind");
        Values values = new Values(map, quantities);
        Optional<Duration> after = quantities.time(map, "after", Duration.ZERO, LONGEST);
        Set<String> expected = kind.map(KEYS::get).orElse(null);
        if (kind.isEmpty() || expected == null) {
            return Optional.empty();
        }
        for (String key : ALL_KEYS) {
            if (map.has(key) && !expected.contains(key)) {
                map.keyProblem(key, "a fault of the kind \"" + kind.get() + "\" has no " + key + "; leave it out");
            } else if (!map.has(key) && expected.contains(key) && !key.equals("after")) {
                map.missing(key, "missing: a fault of the kind \"" + kind.get() + "\" needs " + key);
            }
        }
        if (map.document().complainedWithin(map.path())) {
            return Optional.empty();
        }
        try {
            return Optional.of(new MachineFault.Onset(values.fault(kind.get()), after.orElse(Duration.ZERO)));
        } catch (IllegalArgumentException e) {
            map.problem("kind", String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    /** What the entry says, all of it asked for, so that every value is checked whatever the kind. */
    private static final class Values {

        private final QuantityReader quantities;
        private final double factor;
        private final double counts;
        private final double angle;
        private final double torque;
        private final double positionGain;
        private final double speedGain;
        private final double resonance;
        private final double holds;
        private final Optional<String> input;
        private final boolean active;
        private final long code;
        private final Duration lasts;

        Values(YamlMap map, QuantityReader quantities) {
            this.quantities = quantities;
            factor = map.number("factor").orElse(0);
            counts = map.number("counts").orElse(0);
            angle = value(map, "angle", Sense.POSITION, Sign.ANY, Unit.DEGREE);
            torque = value(map, "torque", Sense.RATIO, Sign.POSITIVE, Unit.PERCENT);
            positionGain = value(map, "positionGain", Sense.RATIO, Sign.POSITIVE, Unit.PERCENT) / 100;
            speedGain = value(map, "speedGain", Sense.RATIO, Sign.POSITIVE, Unit.PERCENT) / 100;
            resonance = value(map, "resonance", Sense.FREQUENCY, Sign.POSITIVE, Unit.HERTZ);
            holds = value(map, "holds", Sense.RATIO, Sign.NOT_NEGATIVE, Unit.PERCENT) / 100;
            input = map.text("input");
            active = map.bool("active").orElse(false);
            code = map.integer("code").orElse(0);
            lasts = quantities
                    .time(map, "lasts", FaultKind.SHORTEST, FaultKind.LONGEST)
                    .orElse(Duration.ZERO);
        }

        private double value(YamlMap map, String key, Sense sense, Sign sign, Unit unit) {
            Optional<Quantity> quantity = quantities.read(map, key, sense, sign);
            if (quantity.isEmpty()) {
                return 0;
            }
            if (quantity.get().unit().dimension() != unit.dimension()) {
                map.problem(
                        key, "expected an angle of the motor shaft such as 2 deg, found \"" + quantity.get() + "\"");
                return 0;
            }
            return quantity.get().in(unit);
        }

        MachineFault fault(String kind) {
            return switch (kind) {
                case "wrong gear" -> new MachineFault.WrongGear(whole("factor", factor));
                case "wrong sign" -> new MachineFault.WrongSign();
                case "detuned gains" -> new MachineFault.DetunedGains(positionGain, speedGain);
                case "noisy encoder" -> new MachineFault.NoisyEncoder(counts);
                case "loose coupling" -> new MachineFault.LooseCoupling(resonance);
                case "backlash" -> new MachineFault.Backlash(angle);
                case "worn brake" -> new MachineFault.WornBrake(holds);
                case "more friction" -> new MachineFault.MoreFriction(factor);
                case "encoder slip" -> new MachineFault.EncoderSlip(angle, torque);
                case "stuck switch" -> new MachineFault.StuckSwitch(switchInput(), active);
                case "switch pressed" -> new MachineFault.HandOnSwitch(switchInput(), true);
                case "switch released" -> new MachineFault.HandOnSwitch(switchInput(), false);
                case "turned by hand" -> new MachineFault.TurnByHand(angle);
                case "drive trip" -> new MachineFault.Trip((int) code);
                case "lost zero" -> new MachineFault.LostHome(whole("counts", counts));
                case "cable pulled" -> new MachineFault.CablePulled(lasts);
                case "power cycle" -> new MachineFault.PowerCycle(lasts);
                default -> throw new IllegalStateException("no such kind: " + kind);
            };
        }

        private SwitchInput switchInput() {
            return SwitchInput.valueOf(
                    input.orElseThrow().toUpperCase(Locale.ROOT).replace(' ', '_'));
        }

        private int whole(String key, double value) {
            if (value != Math.rint(value) || Math.abs(value) > Integer.MAX_VALUE) {
                throw new IllegalArgumentException(key + " must be a whole number, got " + value);
            }
            return (int) value;
        }
    }
}
