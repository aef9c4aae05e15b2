package org.axtrial.script;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.axtrial.axis.AxisSetup;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.IndividualsChart;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Positioning;
import org.axtrial.measure.PositioningPoint;
import org.axtrial.measure.RestSeries;
import org.axtrial.measure.ScaleFit;
import org.axtrial.measure.Source;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/** The words of a trial that make one value of many rest positions. */
final class SeriesWords {

    private static final String POSITIONING =
            "t.positioning([{ target: [10, \"mm\"], up: [out.restPosition()], down: [back.restPosition()] }, …])";

    private static final String SCALE = "t.scale([{ commanded: [10, \"mm\"], measured: t.reading(…) }, …])";

    private static final String OWN_SCALE =
            "a scale needs an external instrument: positions that the drive reports are counted with the same scale"
                    + " as its orders; take every position with t.reading";

    private final TrialObject trial;
    private final AxisSetup axis;
    private final TrialEvents events;

    SeriesWords(TrialObject trial, AxisSetup axis, TrialEvents events) {
        this.trial = trial;
        this.axis = axis;
        this.events = events;
    }

    void offer() {
        trial.word("homingSpread", (values, place) -> {
            Arguments arguments =
                    new Arguments("homingSpread", "t.homingSpread([first, second, …])", values).count(1, 1);
            MeasuredSeries found = MeasuredSeries.of(axis, "homingSpread", arguments.value(0), 2);
            return made(
                    RestSeries.homingSpread(found.positions(), axis.unit(), found.source(), found.resolution()),
                    found.reservation());
        });
        trial.word("homingRange", (values, place) -> {
            Arguments arguments = new Arguments("homingRange", "t.homingRange([first, second, …])", values).count(1, 1);
            MeasuredSeries found = MeasuredSeries.of(axis, "homingRange", arguments.value(0), 2);
            return made(
                    RestSeries.homingRange(found.positions(), axis.unit(), found.source(), found.resolution()),
                    found.reservation());
        });
        trial.word("lostMotion", (values, place) -> {
            Arguments arguments = new Arguments("lostMotion", "t.lostMotion([up, …], [down, …])", values).count(2, 2);
            MeasuredSeries up = MeasuredSeries.of(axis, "lostMotion", arguments.value(0), 2);
            MeasuredSeries down = MeasuredSeries.of(axis, "lostMotion", arguments.value(1), 2);
            return made(
                    RestSeries.lostMotion(
                            up.positions(),
                            down.positions(),
                            axis.unit(),
                            Source.worst(List.of(up.source(), down.source())),
                            Math.max(up.resolution(), down.resolution())),
                    up.reservation().or(() -> down.reservation()));
        });
        trial.word("pointsOutside", this::pointsOutside);
        trial.word("positioning", this::positioning);
        trial.word("scale", (values, place) -> scale(values));
    }

    private MeasurementObject pointsOutside(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments =
                new Arguments("pointsOutside", "t.pointsOutside([well, …], [later, …])", values).count(2, 2);
        Unit unit = MeasuredSeries.unitOfFirst(arguments.value(0), axis.unit());
        MeasuredSeries well = MeasuredSeries.of("pointsOutside", arguments.value(0), 2, unit);
        MeasuredSeries later = MeasuredSeries.of("pointsOutside", arguments.value(1), 1, unit);
        IndividualsChart chart = IndividualsChart.of(well.positions());
        // The check tells only how many; which they were and what the limits are has to stand in the record as well.
        chart.sentences(later.positions(), unit).forEach(sentence -> events.step(sentence, place));
        return made(
                chart.pointsOutside(
                        later.positions(),
                        Source.worst(List.of(well.source(), later.source())),
                        Math.max(well.resolution(), later.resolution())),
                well.reservation().or(() -> later.reservation()));
    }

    private PositioningObject positioning(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments = new Arguments("positioning", POSITIONING, values).count(1, 1);
        Value list = arguments.value(0);
        if (!list.hasArrayElements() || list.getArraySize() == 0) {
            throw new ScriptMistake("positioning: expected a list of targets but got " + Arguments.shown(list)
                    + "; write " + POSITIONING);
        }
        List<PositioningPoint> points = new ArrayList<>();
        Source source = Source.INSTRUMENT;
        double resolution = 0;
        Map<String, Contribution> instruments = new TreeMap<>();
        Optional<String> reservation = Optional.empty();
        for (long i = 0; i < list.getArraySize(); i++) {
            Arguments target = new Arguments("positioning", POSITIONING, List.of(list.getArrayElement(i)));
            Options options = target.options(0, "target", "up", "down");
            Quantity at = target.motion(
                    target.pair(options.required("target", POSITIONING), "option target"),
                    Dimension.Motion.POSITION,
                    "target",
                    axis.scale(),
                    axis.unit());
            double position = axis.scale().convert(at.value(), at.unit(), axis.unit());
            MeasuredSeries up = MeasuredSeries.of(axis, "positioning", options.required("up", POSITIONING), 1);
            MeasuredSeries down = MeasuredSeries.of(axis, "positioning", options.required("down", POSITIONING), 1);
            source = Source.worst(List.of(source, up.source(), down.source()));
            resolution = Math.max(resolution, Math.max(up.resolution(), down.resolution()));
            up.instruments().forEach((name, one) -> instruments.merge(name, one, MeasuredSeries::larger));
            down.instruments().forEach((name, one) -> instruments.merge(name, one, MeasuredSeries::larger));
            reservation = reservation.or(() -> up.reservation()).or(() -> down.reservation());
            points.add(new PositioningPoint(position, up.deviations(position), down.deviations(position)));
        }
        points.sort(Comparator.comparingDouble(PositioningPoint::target));
        Positioning positioning = new Positioning(axis.unit(), source, resolution, atBothEnds(instruments, 1), points);
        // The results stand in checks; what they were made of has to stand in the record as well.
        events.positioning(positioning);
        positioning.sentences().forEach(sentence -> events.step(sentence, place));
        return new PositioningObject(trial.host(), positioning, axis.scale(), reservation);
    }

    private MeasurementObject scale(List<Value> values) {
        Arguments arguments = new Arguments("scale", SCALE, values).count(1, 1);
        Value list = arguments.value(0);
        if (!list.hasArrayElements() || list.getArraySize() < 3) {
            throw new ScriptMistake("scale: expected a list of at least 3 positions but got " + Arguments.shown(list)
                    + "; write " + SCALE);
        }
        List<Double> commanded = new ArrayList<>();
        List<Value> readings = new ArrayList<>();
        for (long i = 0; i < list.getArraySize(); i++) {
            Arguments position = new Arguments("scale", SCALE, List.of(list.getArrayElement(i)));
            Options options = position.options(0, "commanded", "measured");
            Quantity at = position.motion(
                    position.pair(options.required("commanded", SCALE), "option commanded"),
                    Dimension.Motion.POSITION,
                    "commanded position",
                    axis.scale(),
                    axis.unit());
            commanded.add(axis.scale().convert(at.value(), at.unit(), axis.unit()));
            readings.add(options.required("measured", SCALE));
        }
        double span = Collections.max(commanded) - Collections.min(commanded);
        if (!(span > 0)) {
            throw new ScriptMistake("scale: all commanded positions are the same; a scale needs a distance, so move"
                    + " the axis between the readings");
        }
        MeasuredSeries measured = MeasuredSeries.of(axis, "scale", readings);
        ScaleFit fit = ScaleFit.of(
                commanded,
                measured.positions(),
                axis.unit(),
                measured.source(),
                measured.resolution(),
                overSpan(measured.instruments(), span));
        return made(
                fit.scale(),
                measured.reservation()
                        .or(() -> measured.source() == Source.INSTRUMENT ? Optional.empty() : Optional.of(OWN_SCALE)));
    }

    /**
     * What a certificate leaves open of a slope: both ends of the span off by it, independently. Errors of all positions
     * that are independent of each other turn the line by less.
     */
    private static List<Contribution> overSpan(Map<String, Contribution> instruments, double span) {
        return atBothEnds(instruments, 1 / span);
    }

    /** A difference of two readings has the certificate in it twice; nothing says that its error is the same at both. */
    private static List<Contribution> atBothEnds(Map<String, Contribution> instruments, double factor) {
        return instruments.values().stream()
                .map(one -> new Contribution(
                        one.name() + ", at both ends",
                        one.evaluation(),
                        one.how(),
                        one.distribution(),
                        one.spread() * Math.sqrt(2) * factor,
                        one.divisor(),
                        one.degreesOfFreedom()))
                .toList();
    }

    private MeasurementObject made(Measurement measurement, Optional<String> reservation) {
        return new MeasurementObject(
                trial.host(), measurement.withReservation(reservation), Optional.empty(), axis.scale());
    }
}
