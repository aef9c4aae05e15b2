package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.axis.Envelope;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.site.QuantityReader.Sign;

/** Reads the envelope of an axis. */
final class EnvelopeReader {

    private static final Duration TIME = Duration.ofSeconds(60);

    private final YamlMap map;
    private final QuantityReader quantities;

    EnvelopeReader(YamlMap map, QuantityReader quantities) {
        this.map = map;
        this.quantities = quantities;
    }

    Optional<Envelope> read(Optional<AxisScale> scale) {
        List<Quantity> travel = new ArrayList<>();
        map.texts("travel")
                .forEach((path, text) -> quantities
                        .check(map.document(), path, text, Sense.POSITION)
                        .ifPresent(travel::add));
        boolean windowGood = travel.size() == 2 && scale.isPresent() && isWindow(travel, scale.get());
        Optional<Quantity> speed = quantities.read(map, "speed", Sense.SPEED, Sign.POSITIVE);
        Optional<Quantity> acceleration = quantities.read(map, "acceleration", Sense.ACCELERATION, Sign.POSITIVE);
        Optional<Quantity> torque = quantities.read(map, "torque", Sense.RATIO, Sign.POSITIVE);
        Duration time = quantities
                .time(map, "time", Duration.ofMillis(100), Duration.ofHours(1))
                .orElse(TIME);
        if (!windowGood || speed.isEmpty() || acceleration.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Envelope(travel.get(0), travel.get(1), speed.get(), acceleration.get(), torque, time));
    }

    private boolean isWindow(List<Quantity> travel, AxisScale scale) {
        double low = scale.convert(travel.get(0), Unit.COUNT).value();
        double high = scale.convert(travel.get(1), Unit.COUNT).value();
        boolean good = low < high && low <= 0 && high >= 0;
        if (!good) {
            String wanted = low < high
                    ? "zero between the two, because positions count from where the axis stands when the run begins"
                    : "the lowest position first, then a higher one";
            map.problem(
                    "travel", "expected " + wanted + "; found [\"" + travel.get(0) + "\", \"" + travel.get(1) + "\"]");
        }
        return good;
    }
}
