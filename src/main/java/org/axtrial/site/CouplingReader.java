package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.axtrial.plant.GantryBeam;
import org.axtrial.plant.LoadCoupling;
import org.axtrial.plant.LoadTransfer;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.site.QuantityReader.Sign;

/** Reads what joins the loads of axes in a simulation, and turns its quantities into SI units. */
final class CouplingReader {

    private static final Duration LONGEST = Duration.ofHours(24);
    private static final String BEAM = "gantry beam";
    private static final List<String> ALL_KEYS = List.of(
            "axes",
            "stiffness",
            "damping",
            "skew",
            "from",
            "to",
            "mass",
            "inertia",
            "gravityBefore",
            "gravityAfter",
            "at",
            "after");
    private static final Set<String> BEAM_KEYS = Set.of("axes", "stiffness", "damping", "skew");

    private final YamlMap top;
    private final List<String> names;

    CouplingReader(YamlMap top) {
        this.top = top;
        this.names = top.blocks("axes").stream()
                .flatMap(axis -> axis.text("name").stream())
                .toList();
    }

    /**
     * The couplings that are right; tells what is wrong with the others.
     *
     * @param axes those that are right; nothing more is told of a coupling with others
     */
    List<SiteCoupling> read(List<SiteAxis> axes) {
        Map<String, SiteAxis> byName = new LinkedHashMap<>();
        axes.forEach(axis -> byName.put(axis.name(), axis));
        List<SiteCoupling> read = new ArrayList<>();
        for (YamlMap map : top.blocks("couplings")) {
            Optional<SiteCoupling> coupling = new Entry(map).read(byName);
            if (coupling.isPresent()) {
                read.add(coupling.get());
                if (!canBeSimulated(map, read, axes)) {
                    read.remove(read.size() - 1);
                }
            }
        }
        return read;
    }

    /** Whether it works beside those before it; a beam may be too stiff for the axes it joins. */
    private static boolean canBeSimulated(YamlMap map, List<SiteCoupling> upToHere, List<SiteAxis> axes) {
        Map<String, CoupledAxes.Simulated> drives;
        try {
            drives = CoupledAxes.drives(axes, upToHere);
        } catch (MissingSimulationException | IllegalArgumentException e) {
            return true; // no fault of the coupling; it is told by whoever makes the drives to run them
        }
        try {
            CoupledAxes.couple(upToHere, drives);
            return true;
        } catch (IllegalArgumentException e) {
            map.problem("kind", String.valueOf(e.getMessage()));
            return false;
        }
    }

    /** One coupling. All of it is asked for, so that every value is checked whatever the kind. */
    private final class Entry {

        private final YamlMap map;
        private final Optional<String> kind;
        private final boolean beam;
        private final Optional<String> first;
        private final Optional<String> second;

        Entry(YamlMap map) {
            this.map = map;
            this.kind = map.text("kind");
            this.beam = kind.orElse("").equals(BEAM);
            List<String> pair = List.copyOf(map.texts("axes").values());
            Optional<String> from = map.text("from");
            Optional<String> to = map.text("to");
            this.first = !beam ? from : pair.size() == 2 ? Optional.of(pair.get(0)) : Optional.empty();
            this.second = !beam ? to : pair.size() == 2 ? Optional.of(pair.get(1)) : Optional.empty();
        }

        Optional<SiteCoupling> read(Map<String, SiteAxis> axes) {
            checkKeys();
            checkNames(axes);
            boolean linear = linear(axes);
            QuantityReader quantities = new QuantityReader(first.orElse(map.path()), linear);
            Values values = new Values(quantities, linear);
            if (kind.isEmpty()
                    || first.isEmpty()
                    || second.isEmpty()
                    || !axes.containsKey(first.get())
                    || !axes.containsKey(second.get())
                    || map.document().complainedWithin(map.path())) {
                return Optional.empty();
            }
            try {
                SiteAxis leading = axes.get(first.get());
                return leading == null
                        ? Optional.empty()
                        : Optional.of(new SiteCoupling(values.coupling(leading), first.get(), second.get()));
            } catch (IllegalArgumentException e) {
                map.problem("kind", String.valueOf(e.getMessage()));
                return Optional.empty();
            }
        }

        private void checkKeys() {
            if (kind.isEmpty()) {
                return;
            }
            String what = "a coupling of the kind \"" + kind.get() + "\"";
            for (String key : ALL_KEYS) {
                if (map.has(key) && BEAM_KEYS.contains(key) != beam) {
                    map.keyProblem(key, what + " has no " + key + "; leave it out");
                }
            }
            for (String key : beam ? List.of("axes", "stiffness") : List.of("from", "to")) {
                if (!map.has(key)) {
                    map.missing(key, "missing: " + what + " needs " + key);
                }
            }
            if (!beam && map.has("at") && map.has("after")) {
                map.keyProblem("after", "a load is handed over at a place or after a time, not both; leave one out");
            } else if (!beam && !map.has("at") && !map.has("after")) {
                map.missing("at", "missing: " + what + " needs at or after");
            }
        }

        private void checkNames(Map<String, SiteAxis> axes) {
            first.ifPresent(name -> checkName(beam ? "axes[0]" : "from", name, axes));
            second.ifPresent(name -> checkName(beam ? "axes[1]" : "to", name, axes));
            if (first.isPresent() && first.equals(second)) {
                map.problem(beam ? "axes[1]" : "to", "a coupling joins two axes, found \"" + first.get() + "\" twice");
            } else if (first.isPresent() && second.isPresent()) {
                SiteAxis one = axes.get(first.get());
                SiteAxis other = axes.get(second.get());
                if (one != null && other != null && isLinear(one) != isLinear(other)) {
                    map.problem(
                            beam ? "axes[1]" : "to",
                            one.name() + " is " + word(one) + " and " + other.name() + " is " + word(other)
                                    + "; a coupling joins axes of one kind");
                }
            }
        }

        private void checkName(String key, String name, Map<String, SiteAxis> axes) {
            if (!names.contains(name)) {
                map.problem(key, "there is no axis \"" + name + "\"" + NearMiss.hint(name, names));
                return;
            }
            SiteAxis axis = axes.get(name);
            if (axis != null && axis.simulation().isEmpty()) {
                map.problem(
                        key,
                        "axis " + name + " has no simulate block, and couplings are only simulated; give it one or take"
                                + " the coupling out");
            }
        }

        private boolean linear(Map<String, SiteAxis> axes) {
            return first.map(axes::get).map(CouplingReader::isLinear).orElse(true);
        }

        /** What the entry says in SI units. */
        private final class Values {

            private final double stiffness;
            private final double damping;
            private final Optional<Quantity> skew;
            private final double mass;
            private final double gravityBefore;
            private final double gravityAfter;
            private final Optional<Quantity> place;
            private final Optional<Duration> after;

            Values(QuantityReader quantities, boolean linear) {
                stiffness = value(
                        quantities,
                        "stiffness",
                        Sense.BEAM_STIFFNESS,
                        Sign.POSITIVE,
                        linear ? Unit.NEWTON_PER_METRE : Unit.NEWTON_METRE_PER_RADIAN);
                damping = value(
                        quantities,
                        "damping",
                        Sense.BEAM_DAMPING,
                        Sign.NOT_NEGATIVE,
                        linear ? Unit.NEWTON_SECOND_PER_METRE : Unit.NEWTON_METRE_SECOND_PER_RADIAN);
                skew = quantities.read(map, "skew", Sense.POSITION, Sign.ANY);
                double ownMass = value(quantities, "mass", Sense.MASS, Sign.POSITIVE, Unit.KILOGRAM);
                double ownInertia =
                        value(quantities, "inertia", Sense.INERTIA, Sign.POSITIVE, Unit.KILOGRAM_SQUARE_METRE);
                mass = linear ? ownMass : ownInertia;
                Unit pull = linear ? Unit.NEWTON : Unit.NEWTON_METRE;
                gravityBefore = value(quantities, "gravityBefore", Sense.PULL, Sign.ANY, pull);
                gravityAfter = value(quantities, "gravityAfter", Sense.PULL, Sign.ANY, pull);
                place = quantities.read(map, "at", Sense.POSITION, Sign.ANY);
                after = quantities.time(map, "after", Duration.ZERO, LONGEST);
                if (kind.isPresent() && !beam) {
                    checkMass(linear);
                }
            }

            private void checkMass(boolean linear) {
                String needed = linear ? "mass" : "inertia";
                String wrong = linear ? "inertia" : "mass";
                if (map.has(wrong)) {
                    map.keyProblem(
                            wrong, "these axes are " + (linear ? "linear" : "rotary") + ": tell the load by " + needed);
                } else if (!map.has(needed)) {
                    map.missing(needed, "missing: how heavy the load is that is handed over, by " + needed);
                }
            }

            private double value(QuantityReader quantities, String key, Sense sense, Sign sign, Unit unit) {
                Optional<Quantity> quantity = quantities.read(map, key, sense, sign);
                if (quantity.isEmpty()) {
                    return 0;
                }
                Dimension found = quantity.get().unit().dimension();
                if (found != unit.dimension()) {
                    map.problem(
                            key,
                            "\"" + quantity.get() + "\" is "
                                    + Sense.nounOf(quantity.get().unit())
                                    + "; expected one in " + unit.symbol() + ", because these axes are "
                                    + (unit.dimension() == Dimension.ROTARY_STIFFNESS
                                                    || unit.dimension() == Dimension.ROTARY_DAMPING
                                                    || unit.dimension() == Dimension.TORQUE
                                            ? "rotary"
                                            : "linear"));
                    return 0;
                }
                return quantity.get().in(unit);
            }

            LoadCoupling coupling(SiteAxis leading) {
                if (beam) {
                    return new GantryBeam(
                            stiffness,
                            damping,
                            skew.map(given -> atLoad(leading, given)).orElse(0.0));
                }
                return new LoadTransfer(
                        mass,
                        gravityBefore,
                        gravityAfter,
                        place.<LoadTransfer.Moment>map(given -> new LoadTransfer.AtPlace(atLoad(leading, given)))
                                .orElseGet(() -> new LoadTransfer.AfterTime(
                                        after.orElse(Duration.ZERO).toNanos() * 1e-9)));
            }
        }
    }

    private static double atLoad(SiteAxis axis, Quantity place) {
        Unit unit = isLinear(axis) ? Unit.METRE : Unit.RADIAN;
        return axis.setup().scale().convert(place, unit).value();
    }

    private static boolean isLinear(SiteAxis axis) {
        return axis.setup().scale().isLinear();
    }

    private static String word(SiteAxis axis) {
        return isLinear(axis) ? "linear" : "rotary";
    }
}
