package org.axtrial.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.axtrial.measure.Verdict;

/** Collects what the journal tells of one attempt. */
final class AttemptFold {

    private final int number;
    private final Instant startedAt;
    private final Optional<String> retestReason;
    final List<TrialRecord.Step> steps = new ArrayList<>();
    final List<CheckRecord> checks = new ArrayList<>();
    final List<TraceRecord> traces = new ArrayList<>();
    final List<TrialRecord.Break> broken = new ArrayList<>();
    final List<TrialRecord.Stop> stops = new ArrayList<>();
    final List<PositioningRecord> positioning = new ArrayList<>();
    private final List<ParameterChange> parameters = new ArrayList<>();
    Optional<Instant> finishedAt = Optional.empty();
    private Verdict told = Verdict.INCONCLUSIVE;
    private String reason = "interrupted: the run ended before this trial did";

    AttemptFold(int number, Instant startedAt, Optional<String> retestReason) {
        this.retestReason = retestReason;
        this.number = number;
        this.startedAt = startedAt;
    }

    void finish(Instant at, Verdict verdict, String why) {
        finishedAt = Optional.of(at);
        told = verdict;
        reason = why;
    }

    /** The told verdict never hides a worse one among the checks and breaks. */
    TrialRecord.Attempt attempt() {
        Verdict found = Stream.concat(
                        checks.stream().map(CheckRecord::verdict),
                        broken.stream().map(TrialRecord.Break::verdict))
                .reduce(told, Verdict::worse);
        return new TrialRecord.Attempt(
                number,
                startedAt,
                finishedAt,
                found,
                found == told ? reason : found.printed() + " found within; " + reason,
                steps,
                checks,
                traces,
                broken,
                stops,
                parameters,
                positioning,
                retestReason);
    }

    /** A parameter is about to be changed. */
    void changing(ParameterChange change) {
        parameters.add(change);
    }

    /** A parameter was to be put back; that ends every change of it which still stood. */
    void putBack(Instant at, String name, Optional<String> trouble) {
        parameters.replaceAll(
                change -> change.name().equals(name) && change.leftBehind() ? change.ended(at, trouble) : change);
    }
}
