package org.axtrial.acceptance;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.axtrial.evidence.CanonicalJson;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.evidence.TrialRecord.Attempt;
import org.axtrial.measure.Verdict;

/**
 * What several runs on one machine come to together: a function of their packs alone, whatever their order. Its JSON is
 * canonical (RFC 8785); the schema is on the class path as {@code org/axtrial/evidence/merged.schema.json}. The values
 * stand in the records of the sources.
 *
 * <p>The rules are common practice without a source. Attempts stand by the time at which they began, then by run id and
 * number. The last one decides; if attempts of other runs overlap it in time, the clocks of the computers do not agree and
 * the worst of them decides. A deviation counts if it was agreed in the run that decides.
 *
 * @param format {@link #FORMAT}
 * @param lastRunEnded when the last of the runs ended; the date that the report carries
 * @param simulated whether simulated drives answered
 * @param machine what all sources say of the machine
 * @param verdict the worst of all trials; NOT RUN if there are none
 * @param state how the acceptance stands
 * @param because why it is not ACCEPTED
 * @param sources the runs, by run id
 * @param trials by script, trial and axis
 * @param punch items that are still open
 * @param differences in what else the sources differ, one sentence each
 */
public record MergedRecord(
        String format,
        Instant lastRunEnded,
        boolean simulated,
        List<RunSetup.Fact> machine,
        Verdict verdict,
        AcceptanceState state,
        List<String> because,
        List<Source> sources,
        List<MergedTrial> trials,
        List<OpenItem> punch,
        List<String> differences) {

    /** The only format that this version writes. */
    public static final String FORMAT = "axtrial-merged-1";

    /** Its name in a merged folder. */
    public static final String FILE = "merged.json";

    /** A pack that is merged, as it was read. */
    public record Part(RunRecord record, Ledger ledger, String recordHash, String manifestHash) {}

    /**
     * One of the runs.
     *
     * @param recordHash SHA-256 of its {@code record.json}
     * @param manifestHash SHA-256 of its {@code manifest.json}
     * @param ledgerHead hash of the last line of its ledger, or of its journal if there is none
     */
    public record Source(
            String runId,
            Instant startedAt,
            Instant finishedAt,
            RunRecord.Ended ended,
            Verdict verdict,
            String operator,
            String recordHash,
            String manifestHash,
            String ledgerHead) {}

    /**
     * A trial on an axis with the attempts of all runs.
     *
     * @param decidedBy the run whose attempt decides; empty without any attempt
     * @param deviation why the customer takes the result as it is; empty if nothing was agreed
     */
    public record MergedTrial(
            String script,
            String trial,
            String axis,
            String title,
            Verdict verdict,
            Optional<String> decidedBy,
            Optional<String> deviation,
            List<MergedAttempt> attempts) {

        /** The one attempt that decides; empty without any. It follows from the attempts alone. */
        public Optional<MergedAttempt> deciding() {
            return MergedRecord.deciding(attempts);
        }
    }

    /** One axis cannot be tried twice at a time: where it seems so, the order of time proves nothing. */
    private static Optional<MergedAttempt> deciding(List<MergedAttempt> attempts) {
        if (attempts.isEmpty()) {
            return Optional.empty();
        }
        MergedAttempt last = attempts.get(attempts.size() - 1);
        return attempts.stream()
                .filter(one -> one.equals(last)
                        || (!one.runId().equals(last.runId())
                                && one.finishedAt().orElse(one.startedAt()).compareTo(last.startedAt()) >= 0))
                .min(Comparator.comparing(MergedAttempt::verdict));
    }

    /** One attempt; {@code attempt} is its number in its run. */
    public record MergedAttempt(
            String runId,
            int attempt,
            Instant startedAt,
            Optional<Instant> finishedAt,
            Verdict verdict,
            String reason,
            Optional<String> retestReason) {}

    /** A punch item that is still open; {@code number} is its number in its run. */
    public record OpenItem(String runId, int number, PunchClass grade, String text) {}

    public MergedRecord {
        machine = List.copyOf(machine);
        because = List.copyOf(because);
        sources = List.copyOf(sources);
        trials = List.copyOf(trials);
        punch = List.copyOf(punch);
        differences = List.copyOf(differences);
    }

    /**
     * Merges runs.
     *
     * @throws IllegalArgumentException if there are none, one is given twice, they are of different machines, or some are
     *     simulated and some real
     */
    public static MergedRecord of(List<Part> given) {
        List<Part> parts =
                given.stream().sorted(Comparator.comparing(MergedRecord::id)).toList();
        requireOneMachine(parts);
        List<MergedTrial> trials = trials(parts);
        List<OpenItem> punch = parts.stream()
                .flatMap(part -> Standing.of(part.record(), part.ledger()).open().stream()
                        .map(item -> new OpenItem(id(part), item.number(), item.grade(), item.text())))
                .toList();
        List<String> refused = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        List<String> agreed = new ArrayList<>();
        if (trials.isEmpty()) {
            missing.add("no trial was made");
        }
        trials.forEach(trial -> sort(trial, refused, missing, agreed));
        punch.forEach(item -> (item.grade() == PunchClass.A ? refused : agreed)
                .add("punch item " + item.number() + " of run " + item.runId() + ", class " + item.grade()
                        + ", is open"));
        AcceptanceState state = !refused.isEmpty()
                ? AcceptanceState.NOT_ACCEPTED
                : !missing.isEmpty()
                        ? AcceptanceState.INCOMPLETE
                        : !agreed.isEmpty() ? AcceptanceState.ACCEPTED_WITH_DEVIATIONS : AcceptanceState.ACCEPTED;
        RunRecord first = parts.get(0).record();
        return new MergedRecord(
                FORMAT,
                parts.stream()
                        .map(part -> part.record().stamps().finishedAt())
                        .max(Comparator.naturalOrder())
                        .orElseThrow(),
                first.simulated(),
                first.setup().machine(),
                trials.stream()
                        .map(MergedTrial::verdict)
                        .min(Comparator.naturalOrder())
                        .orElse(Verdict.NOT_RUN),
                state,
                Stream.of(refused, missing, agreed).flatMap(List::stream).toList(),
                parts.stream().map(MergedRecord::source).toList(),
                trials,
                punch,
                differences(parts));
    }

    private static String id(Part part) {
        return part.record().stamps().runId();
    }

    private static void requireOneMachine(List<Part> parts) {
        if (parts.isEmpty()) {
            throw new IllegalArgumentException("no run to merge");
        }
        Part first = parts.get(0);
        for (int i = 1; i < parts.size(); i++) {
            Part other = parts.get(i);
            if (id(other).equals(id(parts.get(i - 1)))) {
                throw new IllegalArgumentException("the run " + id(other) + " is there twice");
            }
            if (other.record().simulated() != first.record().simulated()) {
                throw new IllegalArgumentException("of the runs " + id(first) + " and " + id(other)
                        + " one is simulated and one is real; a simulated axis proves nothing about a machine."
                        + " Merge them apart");
            }
            if (!other.record().setup().machine().equals(first.record().setup().machine())) {
                throw new IllegalArgumentException("the runs " + id(first) + " and " + id(other)
                        + " tell of different machines: " + words(first) + " and " + words(other)
                        + ". Merge the runs of one machine");
            }
        }
    }

    private static String words(Part part) {
        List<String> facts = part.record().setup().machine().stream()
                .map(fact -> fact.name() + " " + fact.value())
                .toList();
        return facts.isEmpty() ? "(nothing told)" : String.join(", ", facts);
    }

    private static Source source(Part part) {
        RunRecord record = part.record();
        return new Source(
                id(part),
                record.stamps().startedAt(),
                record.stamps().finishedAt(),
                record.ended(),
                record.verdict(),
                record.setup().operator(),
                part.recordHash(),
                part.manifestHash(),
                part.ledger().head());
    }

    private record Tried(Part part, TrialRecord trial) {}

    private static List<MergedTrial> trials(List<Part> parts) {
        Map<List<String>, List<Tried>> byName = new TreeMap<>(Comparator.comparing((List<String> key) -> key.get(0))
                .thenComparing(key -> key.get(1))
                .thenComparing(key -> key.get(2)));
        for (Part part : parts) {
            for (TrialRecord trial : part.record().trials()) {
                byName.computeIfAbsent(List.of(trial.script(), trial.trial(), trial.axis()), key -> new ArrayList<>())
                        .add(new Tried(part, trial));
            }
        }
        return byName.values().stream().map(MergedRecord::trial).toList();
    }

    private static MergedTrial trial(List<Tried> all) {
        List<MergedAttempt> attempts = all.stream()
                .flatMap(tried -> tried.trial().attempts().stream().map(one -> attempt(id(tried.part()), one)))
                .sorted(Comparator.comparing(MergedAttempt::startedAt)
                        .thenComparing(MergedAttempt::runId)
                        .thenComparing(MergedAttempt::attempt))
                .toList();
        Optional<MergedAttempt> decides = deciding(attempts);
        TrialRecord named = all.get(0).trial();
        return new MergedTrial(
                named.script(),
                named.trial(),
                named.axis(),
                named.title(),
                decides.map(MergedAttempt::verdict).orElse(Verdict.NOT_RUN),
                decides.map(MergedAttempt::runId),
                decides.flatMap(one -> deviation(one.runId(), all)),
                attempts);
    }

    private static MergedAttempt attempt(String runId, Attempt one) {
        return new MergedAttempt(
                runId,
                one.attempt(),
                one.startedAt(),
                one.finishedAt(),
                one.verdict(),
                one.reason(),
                one.retestReason());
    }

    private static Optional<String> deviation(String runId, List<Tried> all) {
        return all.stream()
                .filter(tried -> id(tried.part()).equals(runId))
                .flatMap(
                        tried -> Standing.of(tried.part().record(), tried.part().ledger()).deviations().stream()
                                .filter(each -> each.covers(tried.trial())))
                .map(each ->
                        each.agreed().reason() + " (agreed by " + each.agreed().by() + ")")
                .findFirst();
    }

    private static void sort(MergedTrial trial, List<String> refused, List<String> missing, List<String> agreed) {
        String named = trial.trial() + " on " + trial.axis();
        if (trial.verdict() == Verdict.PASS || trial.verdict() == Verdict.NOT_APPLICABLE) {
            return;
        }
        if (trial.deviation().isPresent()) {
            agreed.add(named + " is " + trial.verdict().printed() + " and was taken as a deviation");
        } else if (trial.verdict() == Verdict.FAIL) {
            refused.add(named + " failed");
        } else {
            missing.add(named + " is " + trial.verdict().printed());
        }
    }

    private static List<String> differences(List<Part> parts) {
        List<String> all = new ArrayList<>();
        differ(all, "the program", parts, part -> part.record().setup().tool());
        differ(all, "the decision rule", parts, part -> part.record().setup().decisionRule());
        differ(
                all,
                "the agreed procedure",
                parts,
                part -> part.record().setup().procedure().orElse("none"));
        TreeSet<String> names = new TreeSet<>();
        parts.forEach(part -> part.record().files().forEach(file -> names.add(file.name())));
        for (String name : names) {
            differ(
                    all,
                    name,
                    parts,
                    part -> part.record().files().stream()
                            .filter(file -> file.name().equals(name))
                            .map(file -> "SHA-256 " + file.sha256())
                            .findFirst()
                            .orElse("not used"));
        }
        parts.stream()
                .filter(part -> part.record().ended() == RunRecord.Ended.STOPPED)
                .forEach(part -> all.add(
                        "Run " + id(part) + " was stopped: " + part.record().stopReason()));
        return all;
    }

    private static void differ(List<String> all, String what, List<Part> parts, Function<Part, String> value) {
        TreeMap<String, List<String>> runs = new TreeMap<>();
        parts.forEach(part -> runs.computeIfAbsent(value.apply(part), key -> new ArrayList<>())
                .add(id(part)));
        if (runs.size() > 1) {
            List<String> told = runs.entrySet().stream()
                    .map(each -> each.getKey() + " in " + String.join(", ", each.getValue()))
                    .toList();
            all.add("Not the same in all runs, " + what + ": " + String.join("; ", told));
        }
    }

    /** Canonical JSON, the same bytes for the same runs. */
    public byte[] json() {
        return CanonicalJson.of(this);
    }
}
