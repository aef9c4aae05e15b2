package org.axtrial.site;

import java.util.Optional;
import java.util.OptionalLong;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.site.QuantityReader.Sign;

/** Reads the scale of an axis and settles whether it is linear. */
final class ScaleReader {

    private final YamlMap axis;
    private final YamlMap scale;
    private final String name;

    ScaleReader(YamlMap axis, String name) {
        this.axis = axis;
        this.name = name;
        scale = axis.map("scale");
    }

    /** An axis is linear if it has a lead, or if its file tells travel in lengths and so must have forgotten it. */
    boolean isLinear() {
        return scale.has("lead") || lacksLead();
    }

    private boolean lacksLead() {
        return !scale.has("lead") && lengthUnit().isPresent();
    }

    /** The unit of length in which the file tells positions of this axis, if it does. */
    private Optional<Unit> lengthUnit() {
        if (axis.has("unit")) {
            return axis.text("unit").flatMap(Unit::of).filter(Sense::isLinear);
        }
        return axis.map("envelope").texts("travel").values().stream()
                .map(QuantityReader::unitIn)
                .flatMap(Optional::stream)
                .filter(Sense::isLinear)
                .findFirst();
    }

    Optional<AxisScale> read(QuantityReader quantities) {
        if (lacksLead() && scale.isGiven()) {
            scale.missing(
                    "lead",
                    "missing: axis " + name + " tells positions in "
                            + lengthUnit().orElseThrow().symbol()
                            + ", so it needs the travel in one turn of the screw or pulley,"
                            + " for example \"10 mm\"");
        }
        OptionalLong counts = scale.integer("countsPerRevolution");
        Optional<long[]> gear = gear(scale);
        YamlMap box = scale.map("gearbox");
        Optional<long[]> gearbox = pair(box, "motorTurns", "loadTurns");
        Optional<Quantity> lead = quantities.read(scale, "lead", Sense.TRAVEL_LENGTH, Sign.POSITIVE);
        int direction = scale.text("direction").orElse("positive").equals("negative") ? -1 : 1;
        if (counts.isEmpty()
                || gear.isEmpty()
                || gearbox.isEmpty()
                || lead.isPresent() != isLinear()
                || axis.document().complainedWithin(scale.path())) {
            return Optional.empty();
        }
        return Optional.of(new AxisScale(
                counts.getAsLong(),
                gear.get()[0],
                gear.get()[1],
                gearbox.get()[0],
                gearbox.get()[1],
                lead.orElse(null),
                direction));
    }

    /** The electronic gear of a block: encoder counts, register counts; 1 to 1 if it gives none. */
    static Optional<long[]> gear(YamlMap owner) {
        return pair(owner.map("electronicGear"), "encoderCounts", "registerCounts");
    }

    private static Optional<long[]> pair(YamlMap map, String first, String second) {
        OptionalLong one = map.integer(first);
        OptionalLong other = map.integer(second);
        if (!map.isGiven()) {
            return Optional.of(new long[] {1, 1});
        }
        return one.isPresent() && other.isPresent()
                ? Optional.of(new long[] {one.getAsLong(), other.getAsLong()})
                : Optional.empty();
    }
}
