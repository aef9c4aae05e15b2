package org.axtrial.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Printed;
import org.axtrial.measure.Verdict;

/** Turns a record into what the template prints. */
final class ViewMaker {

    private final Path folder;
    private final RunRecord record;
    private final IdentityHashMap<TrialRecord, String> anchors = new IdentityHashMap<>();

    ViewMaker(Path folder, RunRecord record) {
        this.folder = folder;
        this.record = record;
        record.trials().forEach(trial -> anchors.put(trial, "trial-" + (anchors.size() + 1)));
    }

    View view(String style, String recordHash) {
        return new View(
                style,
                mark(record),
                markText(),
                record.stamps().runId(),
                recordHash,
                record.stamps().journalHash(),
                record.setup().job().isEmpty()
                        ? "Acceptance test"
                        : record.setup().job().get(0).value(),
                View.Word.of(record.verdict()),
                sentence(),
                record.totals().stream()
                        .filter(total -> total.trials() > 0)
                        .map(total -> new View.Tally(View.Word.of(total.verdict()), total.trials()))
                        .toList(),
                record.setup().job(),
                record.setup().machine(),
                conditions(),
                record.setup().axes(),
                findings(v -> v == Verdict.FAIL || v == Verdict.ERROR),
                findings(v -> v == Verdict.INCONCLUSIVE || v == Verdict.BLOCKED || v == Verdict.NOT_RUN),
                notes(),
                groups(),
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

    private String sentence() {
        int all = record.trials().size();
        int bad = record.count(Verdict.FAIL) + record.count(Verdict.ERROR);
        int open = record.count(Verdict.INCONCLUSIVE) + record.count(Verdict.BLOCKED) + record.count(Verdict.NOT_RUN);
        String stopped =
                record.ended() == RunRecord.Ended.STOPPED ? "The run was stopped: " + record.stopReason() + ". " : "";
        if (all == 0) {
            return stopped + "No trial was planned or made, so nothing is proven.";
        }
        if (bad == 0 && open == 0) {
            return stopped + "Of " + Words.count(all, "trial", "trials") + ", "
                    + record.count(Verdict.PASS) + " met every criterion"
                    + (record.count(Verdict.NOT_APPLICABLE) > 0
                            ? "; " + record.count(Verdict.NOT_APPLICABLE) + " did not apply."
                            : ".");
        }
        return stopped + "Of " + Words.count(all, "trial", "trials") + ", " + bad + " failed or broke and " + open
                + " proved nothing either way.";
    }

    private List<RunSetup.Fact> conditions() {
        RunSetup setup = record.setup();
        List<RunSetup.Fact> facts = new ArrayList<>();
        facts.add(new RunSetup.Fact("Mode", mode()));
        facts.add(new RunSetup.Fact("Begun", Words.dateTime(record.stamps().startedAt())));
        facts.add(new RunSetup.Fact(
                "Ended",
                Words.dateTime(record.stamps().finishedAt()) + ", "
                        + (record.ended() == RunRecord.Ended.COMPLETED
                                ? "completed"
                                : "stopped: " + record.stopReason())));
        facts.add(new RunSetup.Fact("Operator", setup.operator().isEmpty() ? "not given" : setup.operator()));
        facts.add(new RunSetup.Fact("Program", setup.tool() + " on " + setup.platform()));
        facts.add(new RunSetup.Fact("Decision rule", setup.decisionRule()));
        return facts;
    }

    private String mode() {
        Optional<RunInfo.Mode> mode = record.setup().mode();
        if (mode.isEmpty()) {
            return "unknown";
        }
        return switch (mode.get()) {
            case REAL -> record.simulated() ? "real and simulated axes" : "real axes";
            case SIMULATED -> "simulated axes over Modbus TCP, real time";
            case REHEARSAL -> "simulated axes, virtual time (times below are virtual)";
        };
    }

    private List<View.Finding> findings(Predicate<Verdict> which) {
        return record.trials().stream()
                .filter(trial -> which.test(trial.verdict()))
                .map(trial -> new View.Finding(
                        anchor(trial),
                        trial.trial(),
                        trial.axis(),
                        trial.title(),
                        View.Word.of(trial.verdict()),
                        trial.reason()))
                .toList();
    }

    private List<String> notes() {
        List<String> notes = new ArrayList<>();
        record.notes().forEach(note -> notes.add(note.text()));
        for (TrialRecord trial : record.trials()) {
            if (trial.attempts().size() > 1) {
                notes.add(trial.trial() + " on " + trial.axis() + " was tried "
                        + trial.attempts().size() + " times; the last attempt decides, all are shown.");
            }
            if (!trial.planned()) {
                notes.add(trial.trial() + " on " + trial.axis() + " was run without standing in the plan.");
            }
            trial.attempts().forEach(attempt -> attempt.stops().forEach(stop -> notes.add(stopped(stop))));
        }
        record.stops().forEach(stop -> notes.add(stopped(stop)));
        return notes;
    }

    private static String stopped(TrialRecord.Stop stop) {
        return "Axis " + stop.axis() + " was stopped: " + stop.reason() + ". Stop order "
                + (stop.ordered() ? "acknowledged" : "NOT acknowledged") + ", standstill "
                + (stop.standstill() ? "confirmed after " + Words.seconds(stop.seconds()) : "NOT confirmed") + "; "
                + stop.detail() + ".";
    }

    private List<View.Group> groups() {
        Map<String, List<TrialRecord>> byAxis = record.trials().stream()
                .collect(Collectors.groupingBy(TrialRecord::axis, LinkedHashMap::new, Collectors.toList()));
        return byAxis.entrySet().stream()
                .map(entry -> new View.Group(
                        entry.getKey(),
                        record.axis(entry.getKey())
                                .map(RunSetup.AxisUnderTest::description)
                                .orElse(""),
                        entry.getValue().stream().map(this::trial).toList()))
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
                trial.title(),
                trial.clause(),
                trial.script(),
                trial.planned(),
                View.Word.of(trial.verdict()),
                trial.reason(),
                trial.deciding().map(attempt -> attempt.checks().size()).orElse(0),
                trial.attempts().stream()
                        .map(attempt -> attempt(trial, attempt))
                        .toList());
    }

    private View.Attempt attempt(TrialRecord trial, TrialRecord.Attempt attempt) {
        int of = trial.attempts().size();
        String id = anchor(trial) + "-" + attempt.attempt();
        List<View.Figure> figures = new ArrayList<>();
        for (TraceRecord trace : attempt.traces()) {
            figures.add(figure(id + "-" + (figures.size() + 1), trace, attempt.checks()));
        }
        return new View.Attempt(
                of > 1 ? "Attempt " + attempt.attempt() + " of " + of : "",
                View.Word.of(attempt.verdict()),
                attempt.reason(),
                Words.dateTime(attempt.startedAt())
                        + attempt.finishedAt()
                                .map(end -> ", " + Words.between(attempt.startedAt(), end))
                                .orElse(", not finished"),
                attempt.steps().stream()
                        .map(step -> new View.Step(Words.clock(step.at()), step.text(), place(step.place())))
                        .toList(),
                attempt.checks().stream().map(ViewMaker::check).toList(),
                figures,
                attempt.broken().stream()
                        .map(b -> new View.Break(
                                View.Word.of(b.verdict()),
                                b.message(),
                                place(b.place()),
                                b.place().map(ScriptPlace::text).orElse("")))
                        .toList(),
                attempt.stops().stream().map(ViewMaker::stopped).toList());
    }

    private View.Figure figure(String id, TraceRecord trace, List<CheckRecord> checks) {
        TracePlots plots = new TracePlots(
                id,
                trace,
                TraceFile.read(folder, trace),
                checks.stream()
                        .filter(check -> check.trace()
                                .filter(name -> name.equals(trace.name()))
                                .isPresent())
                        .toList());
        return new View.Figure(trace.title(), trace.file(), plots.caption(), plots.svgs());
    }

    private static String place(Optional<ScriptPlace> place) {
        return place.map(ScriptPlace::toString).orElse("");
    }

    private static View.Check check(CheckRecord check) {
        Judgement judgement = check.judgement();
        return new View.Check(
                check.name(),
                check.measured().name() + ": " + check.measured().definition(),
                Printed.value(judgement),
                check.criterion().printed(),
                Printed.limits(judgement),
                Printed.margin(judgement),
                // The head of the column says k = 2 for all.
                Printed.uncertainty(judgement).replace(" (k = 2)", ""),
                check.measured().samplePeriod().isPresent()
                        ? Words.seconds(check.measured().samplePeriod().getAsDouble())
                        : "—",
                check.measured().source().printed(),
                View.Word.of(check.verdict()),
                check.reason(),
                place(check.place()),
                check.measured().budget().stream()
                        .map(line -> line.name() + " (type " + line.evaluation() + "): u = "
                                + line.standardUncertainty() + " "
                                + check.measured().unit().printed() + ", " + line.how())
                        .toList());
    }
}
