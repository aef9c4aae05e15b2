package org.axtrial.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.RunSetup.Fact;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;

/** Says on one page what was tested, how it ended, and what a signer must know before signing. */
final class FrontPage {

    private final RunRecord record;
    private final Function<TrialRecord, String> anchors;

    /** @param anchors where a trial stands in the report */
    FrontPage(RunRecord record, Function<TrialRecord, String> anchors) {
        this.record = record;
        this.anchors = anchors;
    }

    View.Front view() {
        Optional<Fact> title = title();
        Optional<Fact> id = fact("id").filter(fact -> !title.equals(Optional.of(fact)));
        return new View.Front(
                id.map(Fact::value).orElse(""),
                title.map(Fact::value).orElse("Acceptance test"),
                View.Word.of(record.verdict()),
                sentence(),
                record.totals().stream()
                        .filter(total -> total.trials() > 0)
                        .map(total -> new View.Tally(View.Word.of(total.verdict()), total.trials()))
                        .toList(),
                record.setup().job().stream()
                        .filter(fact -> !title.equals(Optional.of(fact)) && !id.equals(Optional.of(fact)))
                        .map(fact -> new Fact(Words.label(fact.name()), fact.value()))
                        .toList(),
                record.setup().machine().stream()
                        .map(fact -> new Fact(
                                fact.name().equalsIgnoreCase("name") ? "Machine" : Words.label(fact.name()),
                                fact.value()))
                        .toList(),
                record.setup().axes().stream()
                        .map(axis -> new View.AxisLine(
                                axis.name(), axis.description(), axis.driveType(), axis.peer(), axis.simulated()))
                        .toList(),
                extent(),
                conditions(),
                findings(v -> v == Verdict.FAIL || v == Verdict.ERROR),
                findings(v -> v == Verdict.INCONCLUSIVE || v == Verdict.BLOCKED || v == Verdict.NOT_RUN),
                record.setup()
                        .selection()
                        .map(chosen ->
                                "Of the chosen trials nothing was left open. What was not chosen is listed above.")
                        .orElse("Nothing was left open."),
                notes());
    }

    /** The job's title; a site file that has none is headed by the first thing it says of the job. */
    private Optional<Fact> title() {
        return fact("title").or(() -> record.setup().job().stream().findFirst());
    }

    private Optional<Fact> fact(String name) {
        return record.setup().job().stream()
                .filter(fact -> fact.name().equalsIgnoreCase(name))
                .findFirst();
    }

    private String sentence() {
        int all = record.trials().size();
        int bad = record.count(Verdict.FAIL) + record.count(Verdict.ERROR);
        int open = record.count(Verdict.INCONCLUSIVE) + record.count(Verdict.BLOCKED) + record.count(Verdict.NOT_RUN);
        String stopped =
                record.ended() == RunRecord.Ended.STOPPED ? "The run was stopped: " + record.stopReason() + ". " : "";
        if (all == 0) {
            return stopped
                    + (record.links().isEmpty()
                            ? "No trial was planned or made, so nothing is proven."
                            : links() + " No trial was planned or made, so nothing is proven about motion.");
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

    /** What the looks at the links came to, all axes together. */
    private String links() {
        String outcomes = Arrays.stream(LinkRecord.Grade.values())
                .map(grade -> {
                    long axes = record.links().stream()
                            .filter(link -> link.outcome() == grade)
                            .count();
                    return axes == 0 ? "" : axes + " " + LooksView.word(grade);
                })
                .filter(text -> !text.isEmpty())
                .collect(Collectors.joining(", "));
        return "Links looked at by reading alone: " + outcomes + ".";
    }

    /** How much was tried: trials, axes and scripts. */
    private String extent() {
        Map<String, Integer> onAxis = new TreeMap<>();
        Set<String> scripts = new LinkedHashSet<>();
        record.trials().forEach(trial -> {
            onAxis.merge(trial.axis(), 1, Integer::sum);
            scripts.add(trial.script());
        });
        if (onAxis.isEmpty()) {
            return "";
        }
        boolean even = Set.copyOf(onAxis.values()).size() == 1;
        int all = record.trials().size();
        String trials = even && onAxis.size() > 1
                ? Words.count(all / onAxis.size(), "trial", "trials") + " on each of " + onAxis.size() + " axes"
                : Words.count(all, "trial", "trials") + " on " + Words.count(onAxis.size(), "axis", "axes");
        int checks = record.trials().stream()
                .flatMap(trial -> trial.deciding().stream())
                .mapToInt(attempt -> attempt.checks().size())
                .sum();
        return trials + ", " + Words.count(checks, "check", "checks") + ", from "
                + (scripts.size() > 8 ? scripts.size() + " scripts" : String.join(", ", scripts)) + ".";
    }

    private List<Fact> conditions() {
        RunSetup setup = record.setup();
        List<Fact> facts = new ArrayList<>();
        facts.add(new Fact("Mode", mode()));
        facts.add(new Fact(
                "Time",
                Words.period(record.stamps().startedAt(), record.stamps().finishedAt()) + ", "
                        + (record.ended() == RunRecord.Ended.COMPLETED
                                ? "completed"
                                : "stopped: " + record.stopReason())));
        facts.add(new Fact("Operator", setup.operator().isEmpty() ? "not given" : setup.operator()));
        facts.add(new Fact("Program", setup.tool() + " on " + Words.versions(setup.platform())));
        facts.add(new Fact("Method", method()));
        setup.procedure().ifPresent(hash -> facts.add(new Fact("Agreed procedure", "procedure.json, SHA-256 " + hash)));
        setup.earlier()
                .ifPresent(before -> facts.add(new Fact(
                        "Re-test of",
                        "run " + before.runId() + ", record.json SHA-256 " + before.recordSha256() + "; reason: "
                                + before.reason())));
        setup.selection().ifPresent(selection -> facts.addAll(SelectionWords.facts(selection)));
        facts.add(new Fact("Decision rule", setup.decisionRule()));
        facts.add(new Fact("Measured with", instruments()));
        if (setup.machine().stream().noneMatch(fact -> fact.name().equalsIgnoreCase("environment"))) {
            facts.add(new Fact("Environment", "not stated in the site file"));
        }
        facts.add(new Fact("Issued", Words.dateTime(record.stamps().finishedAt()) + ", when the record was closed"));
        return facts;
    }

    /** What was followed; texts and hashes of the scripts are in the pack. */
    private String method() {
        String plan = fact("plan").map(Fact::value).orElse("");
        return (plan.isEmpty() ? "" : plan + ", ")
                + "by the scripts of this pack, whose hashes stand under Files as used";
    }

    private String instruments() {
        int all = record.setup().instruments().size();
        if (all == 0) {
            return "signals of the drives alone";
        }
        int valid = all - Instruments.notes(record).size();
        return "signals of the drives, and " + Words.count(all, "instrument", "instruments") + ", "
                + (valid == all ? "all in calibration" : valid + " in calibration") + " (see Instruments)";
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

    /** What is shared by the axes of one finding. */
    private record Shared(String script, String trial, String title, Verdict verdict, String reason) {}

    private List<View.Finding> findings(Predicate<Verdict> which) {
        Map<String, Map<Shared, List<View.Link>>> byTrial = new LinkedHashMap<>();
        record.trials().stream()
                .filter(trial -> which.test(trial.verdict()))
                .forEach(trial -> byTrial.computeIfAbsent(
                                trial.script() + '\n' + trial.trial(), id -> new LinkedHashMap<>())
                        .computeIfAbsent(
                                new Shared(
                                        trial.script(), trial.trial(), trial.title(), trial.verdict(), trial.reason()),
                                shared -> new ArrayList<>())
                        .add(new View.Link(anchors.apply(trial), trial.axis())));
        return byTrial.values().stream()
                .flatMap(findings -> findings.entrySet().stream())
                .map(entry -> new View.Finding(
                        entry.getKey().trial(),
                        entry.getKey().title(),
                        View.Word.of(entry.getKey().verdict()),
                        entry.getValue(),
                        Words.minus(entry.getKey().reason())))
                .toList();
    }

    private List<String> notes() {
        List<String> notes = new ArrayList<>(Instruments.notes(record));
        record.notes().forEach(note -> notes.add(note.text()));
        List<TrialRecord.Stop> stops = new ArrayList<>();
        for (TrialRecord trial : record.trials()) {
            Optional<String> earlier = record.setup().earlier().flatMap(before -> before.sentence(trial));
            earlier.ifPresent(sentence -> notes.add(Words.minus(sentence) + "."));
            int attempts = trial.attempts().size();
            if (attempts > 1 && earlier.isEmpty()) {
                String last = "attempt " + attempts + " of " + attempts;
                notes.add(trial.trial() + " on " + trial.axis() + ": "
                        + (trial.verdict() == Verdict.PASS
                                ? "passed on " + last
                                : trial.verdict().printed() + " on " + last)
                        + ", which decides; all are shown. " + trial.attemptsInWords() + ".");
            }
            if (!trial.planned()) {
                notes.add(trial.trial() + " on " + trial.axis() + " was run without standing in the plan.");
            }
            for (TrialRecord.Attempt attempt : trial.attempts()) {
                stops.addAll(attempt.stops());
                attempt.steps().stream()
                        .filter(step ->
                                step.person().filter(FrontPage::unattended).isPresent())
                        .forEach(step -> notes.add(trial.trial() + " on " + trial.axis() + ": " + step.text() + "."));
                attempt.parameters().stream()
                        .filter(change -> change.kept() || change.leftBehind())
                        .forEach(change -> notes.add(Parameters.sentence(trial.axis(), change)));
            }
        }
        stops.addAll(record.stops());
        notes.addAll(stopped(stops));
        return notes;
    }

    private static boolean unattended(PersonPart part) {
        return part.outcome() == PersonPart.Outcome.NOBODY_CAME && !part.rehearsed();
    }

    /** The stops that a signer must know of. Those for one reason with one outcome stand together. */
    private static List<String> stopped(List<TrialRecord.Stop> stops) {
        Map<List<Object>, List<TrialRecord.Stop>> alike = stops.stream()
                .filter(stop -> !stop.ordinaryEnd())
                .collect(Collectors.groupingBy(
                        stop -> List.<Object>of(stop.reason(), stop.ordered(), stop.standstill()),
                        LinkedHashMap::new,
                        Collectors.toList()));
        return alike.values().stream()
                .map(group -> group.size() == 1 ? Stops.sentence(group.get(0)) : Stops.sentence(group))
                .toList();
    }
}
