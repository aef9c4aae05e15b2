package org.axtrial.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.axtrial.measure.Verdict;

/** Makes a record from the lines of a journal, and from nothing else. */
final class RunRecordFold {

    private record TrialId(String script, String trial, String axis) implements Comparable<TrialId> {

        private static final Comparator<TrialId> ORDER = Comparator.comparing(TrialId::script)
                .thenComparing(TrialId::trial)
                .thenComparing(TrialId::axis);

        static TrialId of(TrialKey key) {
            return new TrialId(key.script(), key.trial(), key.axis());
        }

        @Override
        public int compareTo(TrialId other) {
            return ORDER.compare(this, other);
        }
    }

    private String runId;
    private RunSetup setup = RunSetup.unknown();
    private List<RunRecord.PackedFile> files = List.of();
    private Instant started;
    private Instant last;
    private Optional<String> stopped = Optional.of("the journal holds no end of the run");
    private final Map<TrialId, RunInfo.PlannedTrial> plan = new LinkedHashMap<>();
    private final Map<TrialId, TreeMap<Integer, AttemptFold>> attempts = new TreeMap<>();
    private final List<TrialRecord.Stop> stops = new ArrayList<>();
    private final List<RunRecord.Note> notes = new ArrayList<>();
    private final List<PunchNote> punch = new ArrayList<>();
    private final List<LinkRecord> links = new ArrayList<>();
    private final List<SnapshotRecord> snapshots = new ArrayList<>();

    private RunRecordFold(String runId, Instant begin) {
        this.runId = runId;
        this.started = begin;
        this.last = begin;
    }

    /**
     * @param folderName stands for the run id when the journal was cut off before its first line was complete
     */
    static RunRecord fold(String folderName, List<JournalLine> lines) {
        RunRecordFold fold = new RunRecordFold(
                folderName, lines.isEmpty() ? Instant.EPOCH : lines.get(0).at());
        lines.forEach(fold::take);
        String head = lines.isEmpty()
                ? Sha256.NOTHING_BEFORE
                : lines.get(lines.size() - 1).hash();
        return fold.record(head);
    }

    private void take(JournalLine line) {
        last = line.at().isAfter(last) ? line.at() : last;
        JournalEntry entry = line.entry();
        if (entry instanceof JournalEntry.RunStarted e) {
            begin(e);
        } else if (entry instanceof JournalEntry.TrialStarted e) {
            attempts.computeIfAbsent(TrialId.of(e.key()), id -> new TreeMap<>())
                    .putIfAbsent(e.key().attempt(), new AttemptFold(e.key().attempt(), line.at(), e.retestReason()));
        } else if (entry instanceof JournalEntry.StepDone e) {
            attempt(e.key(), line.at()).steps.add(new TrialRecord.Step(line.at(), e.text(), e.place(), e.person()));
        } else if (entry instanceof JournalEntry.TraceTaken e) {
            attempt(e.key(), line.at()).traces.add(e.trace());
        } else if (entry instanceof JournalEntry.PositioningMeasured e) {
            attempt(e.key(), line.at()).positioning.add(e.positioning());
        } else if (entry instanceof JournalEntry.CheckJudged e) {
            attempt(e.key(), line.at()).checks.add(e.check());
        } else if (entry instanceof JournalEntry.TrialBroken e) {
            attempt(e.key(), line.at())
                    .broken
                    .add(new TrialRecord.Break(line.at(), e.verdict(), e.message(), e.place()));
        } else if (entry instanceof JournalEntry.AxisStopped e) {
            stop(new TrialRecord.Stop(
                    line.at(), e.axis(), e.reason(), e.ordered(), e.standstill(), e.seconds(), e.detail()));
        } else if (entry instanceof JournalEntry.ParameterChanging e) {
            ParameterChange change = new ParameterChange(
                    line.at(), e.name(), e.unit(), e.found(), e.written(), e.kept(), Optional.empty());
            open(e.axis()).ifPresent(attempt -> attempt.changing(change));
        } else if (entry instanceof JournalEntry.ParameterPutBack e) {
            of(e.axis()).forEach(attempt -> attempt.putBack(line.at(), e.name(), e.trouble()));
        } else if (entry instanceof JournalEntry.TrialFinished e) {
            attempt(e.key(), line.at()).finish(line.at(), e.verdict(), e.reason());
        } else if (entry instanceof JournalEntry.LinkChecked e) {
            links.add(e.link());
        } else if (entry instanceof JournalEntry.SnapshotTaken e) {
            snapshots.add(e.snapshot());
        } else if (entry instanceof JournalEntry.PunchRaised e) {
            punch.add(e.item());
        } else if (entry instanceof JournalEntry.Noted e) {
            notes.add(new RunRecord.Note(line.at(), e.text()));
        } else if (entry instanceof JournalEntry.RunFinished e) {
            stopped = e.stopped();
            e.torn().ifPresent(torn -> notes.add(tornNote(line.at(), torn)));
        }
    }

    private static RunRecord.Note tornNote(Instant at, JournalEntry.Torn torn) {
        return new RunRecord.Note(
                at,
                "The journal ended in an unfinished line of " + torn.bytes()
                        + " bytes, which is kept and counts for nothing.");
    }

    private void begin(JournalEntry.RunStarted e) {
        runId = e.runId();
        setup = e.setup();
        files = e.files();
        e.plan().forEach(p -> plan.put(new TrialId(p.script(), p.trial(), p.axis()), p));
    }

    private AttemptFold attempt(TrialKey key, Instant at) {
        return attempts.computeIfAbsent(TrialId.of(key), id -> new TreeMap<>())
                .computeIfAbsent(key.attempt(), n -> new AttemptFold(n, at, Optional.empty()));
    }

    /** A stop belongs to the attempt that its axis was in; else it belongs to the run. */
    private void stop(TrialRecord.Stop stop) {
        open(stop.axis()).ifPresentOrElse(attempt -> attempt.stops.add(stop), () -> stops.add(stop));
    }

    private Optional<AttemptFold> open(String axis) {
        return of(axis).filter(attempt -> attempt.finishedAt.isEmpty()).findFirst();
    }

    private Stream<AttemptFold> of(String axis) {
        return attempts.entrySet().stream()
                .filter(entry -> entry.getKey().axis().equals(axis)
                        || Optional.ofNullable(plan.get(entry.getKey()))
                                .filter(planned -> planned.works(axis))
                                .isPresent())
                .flatMap(entry -> entry.getValue().values().stream());
    }

    private RunRecord record(String head) {
        List<TrialRecord> trials = Stream.concat(
                        plan.keySet().stream(), attempts.keySet().stream().filter(id -> !plan.containsKey(id)))
                .map(this::trial)
                .toList();
        List<Verdict> verdicts = trials.stream().map(TrialRecord::verdict).toList();
        List<String> axes =
                setup.axes().stream().map(RunSetup.AxisUnderTest::name).toList();
        // Both sorts are stable. Axes report in parallel, so the order of arrival is no property of the run.
        stops.sort(Comparator.comparingInt((TrialRecord.Stop s) -> Math.floorMod(axes.indexOf(s.axis()), 1 << 20))
                .thenComparing(TrialRecord.Stop::axis));
        List<TrialId> planned = List.copyOf(plan.keySet());
        punch.sort(Comparator.comparingInt((PunchNote item) ->
                Math.floorMod(planned.indexOf(new TrialId(item.script(), item.trial(), item.axis())), 1 << 20)));
        notes.sort(Comparator.comparing(RunRecord.Note::at).thenComparing(RunRecord.Note::text));
        return new RunRecord(
                RunRecord.FORMAT,
                new RunRecord.Stamps(runId, started, last, head),
                stopped.isPresent() ? RunRecord.Ended.STOPPED : RunRecord.Ended.COMPLETED,
                stopped.orElse(""),
                Verdict.worst(verdicts),
                Arrays.stream(Verdict.values())
                        .map(v -> new RunRecord.Total(
                                v, (int) verdicts.stream().filter(v::equals).count()))
                        .toList(),
                setup,
                files,
                trials,
                stops,
                notes,
                links,
                snapshots,
                punch);
    }

    private TrialRecord trial(TrialId id) {
        RunInfo.PlannedTrial planned = plan.get(id);
        List<TrialRecord.Attempt> made = attempts.getOrDefault(id, new TreeMap<>()).values().stream()
                .map(AttemptFold::attempt)
                .toList();
        Verdict verdict = Verdict.NOT_RUN;
        String reason = stopped.map(why -> "not reached: " + why).orElse("no attempt was made");
        if (!made.isEmpty()) {
            TrialRecord.Attempt deciding = made.get(made.size() - 1);
            verdict = deciding.verdict();
            reason = deciding.reason();
        }
        return new TrialRecord(
                id.script(),
                id.trial(),
                id.axis(),
                planned == null ? List.of() : planned.with(),
                planned == null ? id.trial() : planned.title(),
                planned == null ? "" : planned.clause(),
                planned != null,
                verdict,
                reason,
                made);
    }
}
