package org.axtrial.site;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.SimulationSpec.Reference;
import org.axtrial.sim.SimulationSpec.SwitchRange;
import org.axtrial.site.QuantityReader.Sign;

/**
 * Reads the switches and the index mark of a simulated axis. The file tells places in the sense of the axis; the drive
 * counts in the sense of its encoder, so that on an axis whose counts fall with growing position the positive limit
 * switch of the axis is the negative one of the drive.
 */
final class ReferenceReader {

    private final YamlMap map;
    private final QuantityReader quantities;

    ReferenceReader(YamlMap reference, QuantityReader quantities) {
        this.map = reference;
        this.quantities = quantities;
    }

    /** Empty without a scale, or if something is wrong with it, which has then been told. */
    Optional<Reference> read(Optional<AxisScale> scale) {
        Optional<Quantity> negative = place("negativeLimit");
        Optional<Quantity> positive = place("positiveLimit");
        Optional<Quantity> homeFrom = place("homeFrom");
        Optional<Quantity> homeTo = place("homeTo");
        Optional<Quantity> hysteresis = quantities.read(map, "hysteresis", Sense.POSITION, Sign.NOT_NEGATIVE);
        Optional<Quantity> index = place("indexMark");
        Optional<Quantity> search = quantities.read(map, "longestSearch", Sense.POSITION, Sign.POSITIVE);
        Optional<Quantity> jerk = quantities.read(map, "jerk", Sense.JERK, Sign.POSITIVE);
        boolean absolute = map.bool("absolute").orElse(false);
        if (scale.isEmpty()) {
            return Optional.empty();
        }
        AxisScale known = scale.get();
        double low = negative.map(given -> turns(known, given)).orElse(Double.NEGATIVE_INFINITY);
        double high = positive.map(given -> turns(known, given)).orElse(Double.POSITIVE_INFINITY);
        double from = homeFrom.map(given -> turns(known, given)).orElse(Double.NEGATIVE_INFINITY);
        double to = homeTo.map(given -> turns(known, given)).orElse(Double.POSITIVE_INFINITY);
        // Both are asked, so that both are told.
        boolean limits = ordered("positiveLimit", low, high);
        boolean cam = ordered("homeTo", from, to);
        if (!limits || !cam) {
            return Optional.empty();
        }
        double sense = known.direction();
        double open = hysteresis.map(given -> turns(known, given)).orElse(0.0);
        Optional<SwitchRange> below = negative.map(given -> range(sense, Double.NEGATIVE_INFINITY, low, open));
        Optional<SwitchRange> above = positive.map(given -> range(sense, high, Double.POSITIVE_INFINITY, open));
        boolean home = homeFrom.isPresent() || homeTo.isPresent();
        return Optional.of(new Reference(
                sense > 0 ? below : above,
                sense > 0 ? above : below,
                home ? Optional.of(range(sense, from, to, open)) : Optional.empty(),
                sense * index.map(given -> turns(known, given)).orElse(0.0),
                absolute,
                search.map(given -> turns(known, given)).orElse(Reference.LONGEST_SEARCH),
                jerk.map(given -> OptionalDouble.of(jerk(known, given))).orElse(OptionalDouble.empty())));
    }

    private Optional<Quantity> place(String key) {
        return quantities.read(map, key, Sense.POSITION, Sign.ANY);
    }

    private boolean ordered(String key, double lower, double upper) {
        if (lower < upper) {
            return true;
        }
        map.problem(
                key,
                "expected more than " + (key.equals("homeTo") ? "homeFrom" : "negativeLimit") + ", found \""
                        + map.text(key).orElse("") + "\"");
        return false;
    }

    private static SwitchRange range(double sense, double from, double to, double hysteresis) {
        return sense > 0 ? new SwitchRange(from, to, hysteresis) : new SwitchRange(-to, -from, hysteresis);
    }

    /** Motor revolutions in the sense of the axis. */
    private static double turns(AxisScale scale, Quantity place) {
        return scale.convert(place, Unit.COUNT).value() / scale.countsPerMotorRevolution();
    }

    private static double jerk(AxisScale scale, Quantity jerk) {
        return switch (jerk.unit().dimension()) {
            case ANGULAR_JERK -> jerk.in(Unit.REVOLUTION_PER_SECOND_CUBED) * scale.motorPerLoad();
            case LINEAR_JERK ->
                jerk.in(Unit.METRE_PER_SECOND_CUBED)
                        / scale.leadIfLinear().orElseThrow().in(Unit.METRE)
                        * scale.motorPerLoad();
            case COUNT_JERK -> jerk.in(Unit.COUNT_PER_SECOND_CUBED) / scale.countsPerMotorRevolution();
            default -> throw new IllegalStateException("not a jerk: " + jerk);
        };
    }
}
