package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;
import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.measure.Verdict;

/**
 * One trial on one axis with every attempt made at it.
 *
 * @param script file name under the scripts folder
 * @param trial id
 * @param axis name
 * @param with names of the axes that move at once with it; usually none, and then left out of the record
 * @param title what it proves
 * @param clause requirement it answers; empty string if none
 * @param planned whether it stands in the plan
 * @param verdict of the last attempt, which is the one that counts; NOT RUN without any
 * @param reason of that verdict; empty for a plain PASS
 * @param attempts all of them, first one first
 */
public record TrialRecord(
        String script,
        String trial,
        String axis,
        @JsonInclude(NON_EMPTY) List<String> with,
        String title,
        String clause,
        boolean planned,
        Verdict verdict,
        String reason,
        List<Attempt> attempts) {

    /**
     * One try.
     *
     * @param attempt 1 for the first
     * @param startedAt when it began
     * @param finishedAt when it ended; empty if the run ended first
     * @param verdict the worst of its checks, of what broke it, and of what was told at its end
     * @param reason of the verdict
     * @param steps what the script did
     * @param checks what was judged
     * @param traces what was sampled
     * @param broken what ended it early
     * @param stops safe stops of its axis while it ran
     * @param parameters parameters of its drive that it changed; left out of the record where there are none
     * @param retestReason why the trial was tried again; left out of the record for a first attempt
     */
    public record Attempt(
            int attempt,
            Instant startedAt,
            Optional<Instant> finishedAt,
            Verdict verdict,
            String reason,
            List<Step> steps,
            List<CheckRecord> checks,
            List<TraceRecord> traces,
            List<Break> broken,
            List<Stop> stops,
            @JsonInclude(NON_EMPTY) List<ParameterChange> parameters,
            @JsonInclude(NON_EMPTY) List<PositioningRecord> positioning,
            @JsonInclude(NON_ABSENT) Optional<String> retestReason) {

        public Attempt {
            steps = List.copyOf(steps);
            checks = List.copyOf(checks);
            traces = List.copyOf(traces);
            broken = List.copyOf(broken);
            stops = List.copyOf(stops);
            parameters = RunRecord.listOrNone(parameters);
            positioning = RunRecord.listOrNone(positioning);
        }

        /** How long it took; zero if it did not end. */
        public Duration lasted() {
            return finishedAt.map(end -> Duration.between(startedAt, end)).orElse(Duration.ZERO);
        }

        Attempt withoutStamps() {
            return new Attempt(
                    attempt,
                    Instant.EPOCH,
                    finishedAt.map(at -> Instant.EPOCH),
                    verdict,
                    reason,
                    steps.stream().map(Step::withoutStamps).toList(),
                    checks.stream().map(CheckRecord::withoutStamps).toList(),
                    traces.stream().map(TraceRecord::withoutStamps).toList(),
                    broken.stream()
                            .map(b -> new Break(Instant.EPOCH, b.verdict(), b.message(), b.place()))
                            .toList(),
                    stops.stream().map(Stop::withoutStamps).toList(),
                    parameters.stream().map(ParameterChange::withoutStamps).toList(),
                    positioning.stream().map(PositioningRecord::withoutStamps).toList(),
                    retestReason);
        }
    }

    /**
     * Something a script did to the axis.
     *
     * @param person what a person had to do with it; left out of the record where nobody had
     */
    public record Step(
            Instant at,
            String text,
            Optional<ScriptPlace> place,
            @JsonInclude(NON_ABSENT) Optional<PersonPart> person) {

        Step withoutStamps() {
            return new Step(Instant.EPOCH, text, place, person.map(PersonPart::withoutStamps));
        }
    }

    /** What ended an attempt before its script did. */
    public record Break(Instant at, Verdict verdict, String message, Optional<ScriptPlace> place) {}

    /**
     * A safe stop.
     *
     * @param ordered whether the drive acknowledged a stop command
     * @param standstill whether standstill was seen
     * @param seconds from the first order to the confirmation or to giving up
     */
    public record Stop(
            Instant at,
            String axis,
            String reason,
            boolean ordered,
            boolean standstill,
            double seconds,
            String detail) {

        private static final String ORDINARY = "end of trial";

        /** Whether this is the stop that ends every trial, and the axis was seen to stand: nothing to look into. */
        public boolean ordinaryEnd() {
            return ordered && standstill && reason.equals(ORDINARY);
        }

        Stop withoutStamps() {
            return new Stop(Instant.EPOCH, axis, reason, ordered, standstill, seconds, detail);
        }
    }

    public TrialRecord {
        with = RunRecord.listOrNone(with);
        attempts = List.copyOf(attempts);
    }

    /** Every attempt with its verdict and why it was made, for example {@code attempt 1: FAIL; attempt 2 (cable fixed): PASS}. */
    public String attemptsInWords() {
        return attempts.stream()
                .map(one -> "attempt " + one.attempt()
                        + one.retestReason().map(why -> " (" + why + ")").orElse("") + ": "
                        + one.verdict().printed())
                .collect(Collectors.joining("; "));
    }

    /** The attempt that decided, if there was one. */
    public Optional<Attempt> deciding() {
        return attempts.isEmpty() ? Optional.empty() : Optional.of(attempts.get(attempts.size() - 1));
    }

    TrialRecord withoutStamps() {
        return new TrialRecord(
                script,
                trial,
                axis,
                with,
                title,
                clause,
                planned,
                verdict,
                reason,
                attempts.stream().map(Attempt::withoutStamps).toList());
    }
}
