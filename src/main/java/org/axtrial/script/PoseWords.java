package org.axtrial.script;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.axtrial.axis.AxisSetup;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.PoseRepeatability;
import org.axtrial.measure.Source;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/** The words of a trial for places that several axes reach together. */
final class PoseWords {

    private static final String POSES = "[{ INFEED: out.INFEED.restPosition(), LIFT: out.LIFT.restPosition() }, …]";
    private static final String REPEATABILITY = "t.poseRepeatability(" + POSES + ")";
    private static final String ACCURACY =
            "t.poseAccuracy(" + POSES + ", { INFEED: [50, \"mm\"], LIFT: [20, \"mm\"] })";
    private static final String NEEDS_INSTRUMENT =
            "pose accuracy needs an external instrument: positions that the drives report show how well their loops close, not"
                    + " where the load is; take every position with t.reading";

    private final TrialObject trial;
    private final AxisSetup axis;
    private final TrialEvents events;

    PoseWords(TrialObject trial, AxisSetup axis, TrialEvents events) {
        this.trial = trial;
        this.axis = axis;
        this.events = events;
    }

    void offer() {
        trial.word("poseRepeatability", (values, place) -> {
            Arguments arguments = new Arguments("poseRepeatability", REPEATABILITY, values).count(1, 1);
            Poses poses = new Poses("poseRepeatability", REPEATABILITY, arguments.value(0));
            poses.tell(place);
            return made(
                    PoseRepeatability.of(poses.rows(), axis.unit(), poses.source(), poses.resolution()),
                    poses.reservation());
        });
        trial.word("poseAccuracy", (values, place) -> {
            Arguments arguments = new Arguments("poseAccuracy", ACCURACY, values).count(2, 2);
            Poses poses = new Poses("poseAccuracy", ACCURACY, arguments.value(0));
            List<Double> command = poses.command(arguments);
            poses.tell(place);
            return made(
                    PoseRepeatability.accuracy(
                            poses.rows(),
                            command,
                            axis.unit(),
                            poses.source(),
                            poses.resolution(),
                            poses.instruments()),
                    poses.reservation()
                            .or(() -> poses.source() == Source.INSTRUMENT
                                    ? Optional.empty()
                                    : Optional.of(NEEDS_INSTRUMENT)));
        });
    }

    private MeasurementObject made(Measurement measurement, Optional<String> reservation) {
        return new MeasurementObject(
                trial.host(), measurement.withReservation(reservation), Optional.empty(), axis.scale());
    }

    /** A list of poses, each with one position for each of the same axes, as one series for each axis. */
    private final class Poses {

        private final String word;
        private final Map<String, MeasuredSeries> axes = new LinkedHashMap<>();

        Poses(String word, String usage, Value list) {
            this.word = word;
            if (axis.unit().dimension() != Dimension.LENGTH) {
                throw new ScriptMistake(word + ": poses are a distance apart, and " + axis.name() + " is measured in "
                        + axis.unit().symbol() + "; only axes that are measured in a length make a pose");
            }
            if (!list.hasArrayElements() || list.getArraySize() < 2) {
                throw new ScriptMistake(word + ": expected a list of at least 2 poses but got " + Arguments.shown(list)
                        + "; write " + usage);
            }
            Map<String, List<Value>> columns = new LinkedHashMap<>();
            for (long i = 0; i < list.getArraySize(); i++) {
                Map<String, Value> pose = new Arguments(word, usage, List.of(list.getArrayElement(i)))
                        .members(0, "positions of pose " + (i + 1));
                if (pose.isEmpty() || (i > 0 && !pose.keySet().equals(columns.keySet()))) {
                    throw new ScriptMistake(word + ": pose " + (i + 1) + " names " + named(pose) + " and the first one "
                            + named(columns) + "; give one position of the same axes in each");
                }
                pose.forEach((name, position) ->
                        columns.computeIfAbsent(name, n -> new ArrayList<>()).add(position));
            }
            columns.forEach((name, column) -> axes.put(name, MeasuredSeries.of(axis, word, column)));
        }

        private static String named(Map<String, ?> pose) {
            return pose.isEmpty() ? "no axis" : String.join(", ", pose.keySet());
        }

        /** One list of coordinates for each pose. */
        List<List<Double>> rows() {
            List<List<Double>> rows = new ArrayList<>();
            int poses = axes.values().iterator().next().positions().size();
            for (int i = 0; i < poses; i++) {
                List<Double> row = new ArrayList<>();
                for (MeasuredSeries column : axes.values()) {
                    row.add(column.positions().get(i));
                }
                rows.add(row);
            }
            return rows;
        }

        Source source() {
            return Source.worst(
                    axes.values().stream().map(MeasuredSeries::source).toList());
        }

        double resolution() {
            return axes.values().stream()
                    .mapToDouble(MeasuredSeries::resolution)
                    .max()
                    .orElse(0);
        }

        Optional<String> reservation() {
            return axes.values().stream()
                    .flatMap(column -> column.reservation().stream())
                    .findFirst();
        }

        /** Certificates of all instruments, that of one axis beside that of the other. */
        List<Contribution> instruments() {
            return axes.values().stream()
                    .flatMap(column -> column.instruments().values().stream())
                    .toList();
        }

        /** The commanded pose, with a position for each axis of the poses. */
        List<Double> command(Arguments arguments) {
            Map<String, Value> given = arguments.members(1, "commanded pose");
            List<Double> command = new ArrayList<>();
            for (String name : axes.keySet()) {
                Value value = given.get(name);
                if (value == null || given.size() != axes.size()) {
                    throw new ScriptMistake(word + ": the commanded pose names " + named(given)
                            + " and the attained ones " + named(axes) + "; give one position of each of these axes");
                }
                Quantity at = arguments.pair(value, "commanded position of " + name);
                if (at.unit().dimension() != Dimension.LENGTH) {
                    throw new ScriptMistake(word + ": the commanded position of " + name + " is in "
                            + at.unit().symbol() + "; give a length such as [50, \"mm\"]");
                }
                command.add(at.unit().convert(at.value(), axis.unit()));
            }
            return command;
        }

        /** The check tells one number; what it was made of has to stand in the record as well. */
        void tell(Optional<ScriptPlace> place) {
            Unit unit = axis.unit();
            List<List<Double>> rows = rows();
            List<String> names = List.copyOf(axes.keySet());
            for (int i = 0; i < rows.size(); i++) {
                List<Double> row = rows.get(i);
                events.step(
                        "Pose " + (i + 1) + ": "
                                + IntStream.range(0, names.size())
                                        .mapToObj(k -> names.get(k) + " at "
                                                + Quantity.of(row.get(k), unit).printed(9))
                                        .collect(Collectors.joining(", ")),
                        place);
            }
        }
    }
}
