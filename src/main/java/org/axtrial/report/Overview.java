package org.axtrial.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.TrialRecord;

/** Tables with one column for each axis: the verdicts of all trials, and the facts of the axes. */
final class Overview {

    /** More columns than this leave too little room for a word on a sheet of paper; the rest gets a table of its own. */
    private static final int AXES_ACROSS = 5;

    private final RunRecord record;
    private final Function<TrialRecord, String> anchors;

    /** @param anchors where a trial stands in the report */
    Overview(RunRecord record, Function<TrialRecord, String> anchors) {
        this.record = record;
        this.anchors = anchors;
    }

    private record TrialId(String script, String trial) {}

    List<View.Matrix> matrices() {
        Set<String> axes = new LinkedHashSet<>();
        Map<TrialId, Map<String, TrialRecord>> rows = new LinkedHashMap<>();
        for (TrialRecord trial : record.trials()) {
            axes.add(trial.axis());
            rows.computeIfAbsent(new TrialId(trial.script(), trial.trial()), id -> new LinkedHashMap<>())
                    .put(trial.axis(), trial);
        }
        List<View.Matrix> out = new ArrayList<>();
        for (List<String> across : parts(List.copyOf(axes))) {
            out.add(new View.Matrix(
                    across,
                    rows.values().stream()
                            .filter(row -> across.stream().anyMatch(row::containsKey))
                            .map(row -> row(row, across))
                            .toList()));
        }
        return out;
    }

    private View.Matrix.Row row(Map<String, TrialRecord> row, List<String> across) {
        TrialRecord any = row.values().iterator().next();
        return new View.Matrix.Row(
                any.trial(),
                any.title(),
                any.clause(),
                across.stream().map(axis -> cell(row, axis)).toList());
    }

    private View.Matrix.Cell cell(Map<String, TrialRecord> row, String axis) {
        TrialRecord trial = row.get(axis);
        if (trial == null) {
            return new View.Matrix.Cell(List.of(), List.of(), "");
        }
        int checks = trial.deciding().map(attempt -> attempt.checks().size()).orElse(0);
        String detail = Words.count(checks, "check", "checks")
                + (trial.attempts().size() > 1 ? ", attempt " + trial.attempts().size() : "")
                + (trial.planned() ? "" : ", not planned");
        return new View.Matrix.Cell(
                List.of(new View.Link(anchors.apply(trial), trial.trial() + " on " + axis)),
                List.of(View.Word.of(trial.verdict())),
                detail);
    }

    List<View.AxisTable> axisTables() {
        List<View.AxisTable> out = new ArrayList<>();
        for (List<RunSetup.AxisUnderTest> across : parts(record.setup().axes())) {
            List<View.AxisRow> rows = new ArrayList<>();
            rows.add(row("Moves", across, RunSetup.AxisUnderTest::description));
            rows.add(row("Drive type", across, RunSetup.AxisUnderTest::driveType));
            rows.add(row("Reached at", across, axis -> axis.peer() + (axis.simulated() ? " SIMULATED" : "")));
            Set<String> names = new LinkedHashSet<>();
            // The axis that has most to say gives the order, so that what others lack stands where it belongs.
            across.stream()
                    .sorted(Comparator.comparingInt(
                            (RunSetup.AxisUnderTest axis) -> -axis.facts().size()))
                    .forEach(axis -> axis.facts().forEach(fact -> names.add(fact.name())));
            names.forEach(name -> rows.add(row(name, across, axis -> fact(axis, name))));
            out.add(new View.AxisTable(
                    across.stream().map(RunSetup.AxisUnderTest::name).toList(), rows));
        }
        return out;
    }

    private static View.AxisRow row(
            String name, List<RunSetup.AxisUnderTest> across, Function<RunSetup.AxisUnderTest, String> value) {
        return new View.AxisRow(name, across.stream().map(value).toList());
    }

    private static String fact(RunSetup.AxisUnderTest axis, String name) {
        return axis.facts().stream()
                .filter(fact -> fact.name().equals(name))
                .findFirst()
                .map(fact -> Words.minus(fact.value()))
                .orElse("—");
    }

    private static <T> List<List<T>> parts(List<T> all) {
        List<List<T>> out = new ArrayList<>();
        for (int from = 0; from < all.size(); from += AXES_ACROSS) {
            out.add(all.subList(from, Math.min(all.size(), from + AXES_ACROSS)));
        }
        return out;
    }
}
