package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.axtrial.axis.AxisSetup;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/**
 * Many measurements of one kind as a script gives them, rest positions for the most part. A series is no better than its worst part.
 *
 * @param positions in one unit, in the order given
 * @param source the one that deserves least trust
 * @param resolution the coarsest, in that unit
 * @param reservation why nothing made of them decides anything, that of the first that has one
 * @param instruments what the certificates say, the larger of two for one instrument, by its name
 */
record MeasuredSeries(
        List<Double> positions,
        Source source,
        double resolution,
        Optional<String> reservation,
        Map<String, Contribution> instruments) {

    /** A list of at least so many measurements, in the unit of the axis. */
    static MeasuredSeries of(AxisSetup axis, String word, Value list, int fewest) {
        return of(word, list, fewest, axis.unit());
    }

    /** A list of at least so many measurements, in any unit. */
    static MeasuredSeries of(String word, Value list, int fewest, Unit unit) {
        if (!list.hasArrayElements() || list.getArraySize() < fewest) {
            throw new ScriptMistake(word + ": expected a list of at least " + fewest
                    + " measurements such as out.restPosition() but got " + Arguments.shown(list));
        }
        List<Value> elements = new ArrayList<>();
        for (long i = 0; i < list.getArraySize(); i++) {
            elements.add(list.getArrayElement(i));
        }
        return read(word, elements, unit);
    }

    /** What must all be measurements, in the unit of the axis. */
    static MeasuredSeries of(AxisSetup axis, String word, List<Value> elements) {
        return read(word, elements, axis.unit());
    }

    private static MeasuredSeries read(String word, List<Value> elements, Unit unit) {
        List<Double> positions = new ArrayList<>();
        Source source = Source.INSTRUMENT;
        double resolution = 0;
        Optional<String> reservation = Optional.empty();
        Map<String, Contribution> instruments = new TreeMap<>();
        for (int i = 0; i < elements.size(); i++) {
            Value element = elements.get(i);
            if (!element.isProxyObject() || !(element.asProxyObject() instanceof MeasurementObject object)) {
                throw new ScriptMistake(
                        word + ": each of the list must be a measurement such as out.restPosition(), but" + " number "
                                + (i + 1) + " is " + Arguments.shown(element));
            }
            Measurement measurement = object.measurement();
            positions.add(object.usable(unit));
            source = Source.worst(List.of(source, measurement.source()));
            reservation = reservation.or(measurement::reservation);
            if (measurement.source() == Source.INSTRUMENT) {
                measurement.in(unit, object.conversion()).budget().contributions().stream()
                        .filter(one -> !one.name().startsWith("resolution of "))
                        .forEach(one -> instruments.merge(one.name(), one, MeasuredSeries::larger));
            }
            resolution = Math.max(
                    resolution, object.conversion().convert(measurement.resolution(), measurement.unit(), unit));
        }
        return new MeasuredSeries(positions, source, resolution, reservation, instruments);
    }

    /** The unit of the first measurement; what is wrong with the list is told when it is read. */
    static Unit unitOfFirst(Value list, Unit otherwise) {
        if (!list.hasArrayElements() || list.getArraySize() == 0) {
            return otherwise;
        }
        Value first = list.getArrayElement(0);
        return first.isProxyObject() && first.asProxyObject() instanceof MeasurementObject object
                ? object.measurement().unit()
                : otherwise;
    }

    /** The one that says more. */
    static Contribution larger(Contribution one, Contribution other) {
        return one.standardUncertainty() >= other.standardUncertainty() ? one : other;
    }

    List<Double> deviations(double target) {
        return positions.stream().map(position -> position - target).toList();
    }
}
