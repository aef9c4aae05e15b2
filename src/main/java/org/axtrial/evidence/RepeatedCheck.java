package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Unit;

/**
 * One check of several runs, by operator, axis and repetition: the raw material of a gauge study of the test itself.
 *
 * @param trial id of the trial
 * @param check name of the check
 * @param unit unit of all readings
 * @param operators who ran the trials, in the order of their first run
 * @param axes in the order of the first run
 * @param readings by operator, axis and repetition; every cell holds the same number
 * @param tolerance width between the limits of the check, in {@code unit}; empty where it has only one
 */
public record RepeatedCheck(
        String trial,
        String check,
        Unit unit,
        List<String> operators,
        List<String> axes,
        List<List<List<Double>>> readings,
        OptionalDouble tolerance) {

    public RepeatedCheck {
        operators = List.copyOf(operators);
        axes = List.copyOf(axes);
        readings = List.copyOf(readings);
    }

    /** One reading with where it comes from. */
    private record Reading(String operator, String axis, String trial, CheckRecord check, String run) {}

    /**
     * Collects a check.
     *
     * @param runs in any order
     * @param trial id of the trial; may be left out if only one has a check of that name
     * @param check name of the check
     * @throws IllegalArgumentException if the runs do not make a full crossed set; all that is missing is told
     */
    public static RepeatedCheck of(List<RunRecord> runs, Optional<String> trial, String check) {
        List<RunRecord> inTime = new ArrayList<>(runs);
        inTime.sort(Comparator.comparing(run -> run.stamps().startedAt()));
        List<Reading> found = new ArrayList<>();
        Set<String> names = new TreeSet<>();
        for (RunRecord run : inTime) {
            for (TrialRecord each : run.trials()) {
                each.deciding().stream()
                        .flatMap(attempt -> attempt.checks().stream())
                        .forEach(one -> {
                            names.add(one.name());
                            if (one.name().equals(check)
                                    && trial.map(each.trial()::equals).orElse(true)) {
                                String operator = run.setup().operator();
                                found.add(new Reading(
                                        operator,
                                        each.axis(),
                                        each.trial(),
                                        one,
                                        run.stamps().runId()));
                            }
                        });
            }
        }
        if (found.isEmpty()) {
            throw new IllegalArgumentException("no run has a check \"" + check + "\"; they have "
                    + String.join(
                            ", ", names.stream().map(name -> '"' + name + '"').toList()));
        }
        refuse(problems(found));
        return crossed(found, check);
    }

    private static List<String> problems(List<Reading> found) {
        List<String> problems = new ArrayList<>();
        Set<String> trials = new TreeSet<>(found.stream().map(Reading::trial).toList());
        if (trials.size() > 1) {
            problems.add("several trials have such a check, " + String.join(", ", trials) + "; name one with --trial");
        }
        Set<Unit> units = new LinkedHashSet<>(
                found.stream().map(one -> one.check().measured().unit()).toList());
        if (units.size() > 1) {
            problems.add("the readings are in different units");
        }
        for (Reading one : found) {
            if (one.check().measured().value().isEmpty()
                    || one.check().measured().bound() != Measurement.Bound.EXACT) {
                problems.add(one.run() + ", axis " + one.axis() + ": the check has no exact value");
            }
            if (one.operator().isBlank()) {
                problems.add(one.run() + " names no operator; run it with --operator");
            }
        }
        return problems.stream().distinct().toList();
    }

    private static RepeatedCheck crossed(List<Reading> found, String check) {
        Map<String, Map<String, List<Double>>> cells = new LinkedHashMap<>();
        Set<String> axes = new LinkedHashSet<>();
        for (Reading one : found) {
            axes.add(one.axis());
            cells.computeIfAbsent(one.operator(), operator -> new LinkedHashMap<>())
                    .computeIfAbsent(one.axis(), axis -> new ArrayList<>())
                    .add(one.check().measured().value().orElseThrow());
        }
        int most = cells.values().stream()
                .flatMap(byAxis -> byAxis.values().stream())
                .mapToInt(List::size)
                .max()
                .orElse(0);
        List<String> missing = new ArrayList<>();
        List<List<List<Double>>> readings = new ArrayList<>();
        cells.forEach((operator, byAxis) -> {
            List<List<Double>> row = new ArrayList<>();
            for (String axis : axes) {
                List<Double> values = byAxis.getOrDefault(axis, List.of());
                if (values.size() != most) {
                    missing.add(
                            operator + " has " + values.size() + " instead of " + most + " readings on axis " + axis);
                }
                row.add(List.copyOf(values));
            }
            readings.add(List.copyOf(row));
        });
        refuse(missing);
        CheckRecord first = found.get(0).check();
        CheckRecord.Limits limits = first.criterion();
        double inUnit = limits.unit() == first.measured().unit() ? 1 : Double.NaN;
        OptionalDouble tolerance = limits.lower().isPresent() && limits.upper().isPresent() && !Double.isNaN(inUnit)
                ? OptionalDouble.of(
                        limits.upper().getAsDouble() - limits.lower().getAsDouble())
                : OptionalDouble.empty();
        return new RepeatedCheck(
                found.get(0).trial(),
                check,
                first.measured().unit(),
                List.copyOf(cells.keySet()),
                List.copyOf(axes),
                readings,
                tolerance);
    }

    private static void refuse(List<String> problems) {
        if (!problems.isEmpty()) {
            throw new IllegalArgumentException(String.join("\n  ", problems));
        }
    }
}
