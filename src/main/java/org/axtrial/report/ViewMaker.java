package org.axtrial.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.PositioningRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Conformity;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Printed;
import org.axtrial.measure.Zone;
import org.axtrial.quantity.Conversion;

/** Turns a record into what the template prints. */
final class ViewMaker {

    private final Path folder;
    private final RunRecord record;
    private final LimitSources limitSources;
    private final Budgets budgets = new Budgets();
    private final IdentityHashMap<TrialRecord, String> anchors = new IdentityHashMap<>();

    ViewMaker(Path folder, RunRecord record) {
        this.folder = folder;
        this.record = record;
        limitSources = new LimitSources(record);
        record.trials().forEach(trial -> anchors.put(trial, "trial-" + (anchors.size() + 1)));
    }

    View view(String style, String recordHash) {
        Overview overview = new Overview(record, this::anchor);
        List<View.Trial> trials = trials();
        return new View(
                style,
                mark(record),
                markText(),
                record.stamps().runId(),
                recordHash,
                record.stamps().journalHash(),
                new FrontPage(record, this::anchor).view(),
                overview.matrices(),
                overview.axisTables(),
                Instruments.lines(record),
                trials,
                budgets.all(),
                record.files().stream()
                        .map(file -> new View.FileLine(file.name(), file.sha256(), file.size()))
                        .toList());
    }

    /** The word on every page of a run that was not the real thing; empty for a real one. */
    static String mark(RunRecord record) {
        return record.simulated() ? "SIMULATED" : "";
    }

    private String markText() {
        return switch (record.setup().mode().map(Enum::name).orElse("")) {
            case "REHEARSAL" ->
                "A rehearsal: simulated drives in virtual time. It proves the scripts, and nothing about a machine.";
            case "SIMULATED" ->
                "Simulated drives answered over the network in real time. This proves nothing about a machine.";
            case "REAL" ->
                record.simulated()
                        ? "Simulated drives answered for some axes. They prove nothing about a machine."
                        : "";
            default -> "The journal was cut off before it said how the axes were worked. Nothing is proven.";
        };
    }

    /** All trials of the first axis, then all of the next: a reader signs for one axis at a time. */
    private List<View.Trial> trials() {
        return record.trials().stream()
                .collect(Collectors.groupingBy(TrialRecord::axis, LinkedHashMap::new, Collectors.toList()))
                .values()
                .stream()
                .flatMap(List::stream)
                .map(this::trial)
                .toList();
    }

    private String anchor(TrialRecord trial) {
        return anchors.getOrDefault(trial, "trials");
    }

    private View.Trial trial(TrialRecord trial) {
        return new View.Trial(
                anchor(trial),
                trial.trial(),
                trial.axis(),
                String.join(", ", trial.with()),
                trial.title(),
                trial.clause(),
                trial.script(),
                trial.planned(),
                View.Word.of(trial.verdict()),
                Words.minus(trial.reason()),
                trial.attempts().stream()
                        .map(attempt -> attempt(trial, attempt))
                        .toList());
    }

    private View.Attempt attempt(TrialRecord trial, TrialRecord.Attempt attempt) {
        int of = trial.attempts().size();
        String id = anchor(trial) + "-" + attempt.attempt();
        List<View.Figure> figures = new ArrayList<>();
        for (TraceRecord trace : attempt.traces()) {
            figures.add(figure(id + "-" + (figures.size() + 1), trial.axis(), trace, attempt.checks()));
        }
        return new View.Attempt(
                of > 1
                        ? "Attempt " + attempt.attempt() + " of " + of
                                + attempt.retestReason()
                                        .map(why -> ", tried again because: " + Words.minus(why))
                                        .orElse("")
                        : "",
                View.Word.of(attempt.verdict()),
                // A break says the same and says where.
                attempt.broken().stream().anyMatch(b -> attempt.reason().startsWith(b.message()))
                        ? ""
                        : Words.minus(attempt.reason()),
                Words.dateTime(attempt.startedAt())
                        + attempt.finishedAt()
                                .map(end -> ", took " + Words.between(attempt.startedAt(), end))
                                .orElse(", not finished")
                        + ".",
                attempt.steps().stream()
                        .map(step ->
                                new View.Step(Words.clock(step.at()), Words.minus(step.text()), place(step.place())))
                        .toList(),
                attempt.checks().stream()
                        .map(check -> check(check, budgets.add(trial, attempt, check)))
                        .toList(),
                figures,
                positioning(id, attempt),
                attempt.broken().stream()
                        .map(b -> new View.Break(
                                View.Word.of(b.verdict()),
                                Words.minus(b.message()),
                                place(b.place()),
                                b.place().map(ScriptPlace::text).orElse("")))
                        .toList(),
                attempt.stops().stream()
                        .filter(stop -> !stop.ordinaryEnd())
                        .map(Stops::sentence)
                        .toList(),
                attempt.stops().stream()
                        .filter(TrialRecord.Stop::ordinaryEnd)
                        .map(Stops::quiet)
                        .toList(),
                attempt.parameters().stream()
                        .map(change -> new View.Parameter(
                                change.name(),
                                Words.minus(change.printedFound()),
                                Words.minus(change.printedWritten()),
                                Parameters.end(change),
                                change.leftBehind()))
                        .toList());
    }

    private static List<View.Positioning> positioning(String id, TrialRecord.Attempt attempt) {
        List<View.Positioning> all = new ArrayList<>();
        for (PositioningRecord test : attempt.positioning()) {
            all.add(new PositioningPlot(id + "-positioning-" + (all.size() + 1), test).view());
        }
        return all;
    }

    private View.Figure figure(String id, String axis, TraceRecord trace, List<CheckRecord> checks) {
        Conversion conversion = record.axis(axis)
                .<Conversion>map(known -> known.scale().scale())
                .orElse(Conversion.SAME_DIMENSION);
        TracePlots plots = new TracePlots(
                id,
                trace,
                TraceFile.read(folder, trace),
                checks.stream()
                        .filter(check -> check.trace()
                                .filter(name -> name.equals(trace.name()))
                                .isPresent())
                        .toList(),
                conversion);
        return new View.Figure(Words.minus(trace.title()), trace.file(), plots.caption(), plots.svgs());
    }

    private static String place(Optional<ScriptPlace> place) {
        return place.map(ScriptPlace::toString).orElse("");
    }

    private View.Check check(CheckRecord check, String budgetAnchor) {
        Judgement judgement = check.judgement();
        return new View.Check(
                Words.minus(check.name()),
                check.measured().name() + ": " + Words.minus(check.measured().definition()),
                Printed.value(judgement),
                Words.minus(check.criterion().printed()),
                Printed.limits(judgement),
                Printed.margin(judgement),
                Printed.uncertainty(judgement),
                Printed.coverage(judgement.measured()),
                budgetAnchor,
                check.measured().samplePeriod().isPresent()
                        ? Words.seconds(check.measured().samplePeriod().getAsDouble())
                        : "—",
                check.measured().source().printed(),
                View.Word.of(check.verdict()),
                check.conformity()
                        .flatMap(Conformity::zone)
                        .filter(zone -> zone == Zone.CONDITIONAL_PASS || zone == Zone.CONDITIONAL_FAIL)
                        .map(Zone::printed)
                        .orElse(""),
                Printed.conformity(judgement),
                limitSources.sentence(check),
                Words.minus(check.reason()),
                place(check.place()));
    }
}
