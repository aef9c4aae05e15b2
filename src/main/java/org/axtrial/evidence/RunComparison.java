package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.ValueChange;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Unit;

/**
 * One run held against an earlier one: a pure function of both records. Its JSON is canonical (RFC 8785); the schema is
 * on the class path as {@code org/axtrial/evidence/comparison.schema.json}.
 *
 * @param format {@link #FORMAT}
 * @param baseline the run that is held against
 * @param run the run that is looked at
 * @param simulated whether a simulated drive answered in either
 * @param trials trials of both runs, those that became worse first
 * @param checks checks of both runs, changes of verdict first, then moved values
 * @param onlyInBaseline trials and checks that the run lacks
 * @param onlyInRun trials and checks that the baseline lacks
 * @param conditions what else differs: decision rule, scale and the like
 * @param parametersCompared whether both packs hold a snapshot of the parameters
 * @param parameters where these differ
 */
public record RunComparison(
        String format,
        Source baseline,
        Source run,
        boolean simulated,
        List<TrialChange> trials,
        List<CheckChange> checks,
        List<Unmatched> onlyInBaseline,
        List<Unmatched> onlyInRun,
        List<String> conditions,
        boolean parametersCompared,
        List<SnapshotRecord.Difference> parameters) {

    /** The only format that this version writes. */
    public static final String FORMAT = "axtrial-comparison-1";

    /**
     * One of both runs.
     *
     * @param recordHash SHA-256 of its {@code record.json}
     * @param journalHash hash of the last line of its journal
     */
    public record Source(String runId, Instant startedAt, Verdict verdict, String recordHash, String journalHash) {

        /** What names a run, with the hash of its record as it stands in the pack. */
        public static Source of(RunRecord record, String recordHash) {
            return new Source(
                    record.stamps().runId(),
                    record.stamps().startedAt(),
                    record.verdict(),
                    recordHash,
                    record.stamps().journalHash());
        }
    }

    /** The verdicts of one trial. */
    public record TrialChange(String script, String trial, String axis, String title, Verdict was, Verdict is) {

        /** Whether the verdict became worse. */
        public boolean worse() {
            return is.compareTo(was) < 0;
        }
    }

    /** What both runs have in common in the name of a check; {@code occurrence} counts checks of one name from 1. */
    public record Key(String script, String trial, String axis, String check, int occurrence) {}

    /**
     * One side of a check.
     *
     * @param value in the unit of the check; empty without a value
     * @param standardUncertainty in that unit
     * @param expandedUncertainty in that unit
     * @param limits as printed by that run
     */
    public record Side(
            OptionalDouble value,
            double standardUncertainty,
            double expandedUncertainty,
            String limits,
            Verdict verdict) {}

    /**
     * One check of both runs.
     *
     * @param unit of all values here, that of the run
     * @param change with its significance
     * @param shareOfTolerance change divided by the tolerance of the run, 1 for all of it; empty where there is none
     * @param limitsChanged whether the limits differ
     */
    public record CheckChange(
            Key key,
            Unit unit,
            Side was,
            Side is,
            ValueChange change,
            OptionalDouble shareOfTolerance,
            boolean limitsChanged) {

        /** Whether the verdict is another one. */
        public boolean verdictChanged() {
            return was.verdict() != is.verdict();
        }

        /** Whether it is inside its limits as before, but at another place. */
        public boolean movedInside() {
            return was.verdict() == Verdict.PASS
                    && is.verdict() == Verdict.PASS
                    && change.outcome() == ValueChange.Outcome.MOVED;
        }
    }

    /**
     * What one of both runs lacks.
     *
     * @param check empty for a whole trial
     */
    public record Unmatched(String script, String trial, String axis, Optional<String> check, Verdict verdict) {}

    public RunComparison {
        trials = List.copyOf(trials);
        checks = List.copyOf(checks);
        onlyInBaseline = List.copyOf(onlyInBaseline);
        onlyInRun = List.copyOf(onlyInRun);
        conditions = List.copyOf(conditions);
        parameters = List.copyOf(parameters);
    }

    /** Whether the verdict of a trial or check became worse. */
    public boolean worse() {
        return trials.stream().anyMatch(TrialChange::worse)
                || checks.stream()
                        .anyMatch(check ->
                                check.is().verdict().compareTo(check.was().verdict()) < 0);
    }

    /** Whether all is as it was, as far as the uncertainty lets see. */
    public boolean same() {
        return onlyInBaseline.isEmpty()
                && onlyInRun.isEmpty()
                && parameters.isEmpty()
                && trials.stream().allMatch(trial -> trial.was() == trial.is())
                && checks.stream()
                        .allMatch(check -> !check.verdictChanged()
                                && !check.limitsChanged()
                                && check.change().outcome() == ValueChange.Outcome.WITHIN_UNCERTAINTY);
    }

    /**
     * Writes {@code compare.json} into a folder, in place of an older one.
     *
     * @throws EvidenceLostException if it cannot be written
     */
    public Path write(Path folder) {
        Path file = folder.resolve("compare.json");
        try {
            Files.createDirectories(folder);
            Files.write(file, json());
            return file;
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e, e);
        }
    }

    byte[] json() {
        return CanonicalJson.bytes(Json.tree(this));
    }
}
