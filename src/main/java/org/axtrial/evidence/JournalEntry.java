package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.axtrial.measure.Verdict;

/** What the {@code data} member of a journal line holds, one record for each {@code type}. */
sealed interface JournalEntry {

    Map<String, Class<? extends JournalEntry>> TYPES = Stream.of(
                    RunStarted.class,
                    TrialStarted.class,
                    StepDone.class,
                    TraceTaken.class,
                    PositioningMeasured.class,
                    CheckJudged.class,
                    TrialBroken.class,
                    AxisStopped.class,
                    ParameterChanging.class,
                    ParameterPutBack.class,
                    PunchRaised.class,
                    TrialFinished.class,
                    LinkChecked.class,
                    SnapshotTaken.class,
                    Noted.class,
                    RunFinished.class)
            .collect(Collectors.toUnmodifiableMap(Class::getSimpleName, Function.identity()));

    record RunStarted(String runId, RunSetup setup, List<RunInfo.PlannedTrial> plan, List<RunRecord.PackedFile> files)
            implements JournalEntry {}

    record TrialStarted(
            TrialKey key, @JsonInclude(NON_ABSENT) Optional<String> retestReason) implements JournalEntry {}

    record StepDone(
            TrialKey key,
            String text,
            Optional<ScriptPlace> place,
            @JsonInclude(NON_ABSENT) Optional<PersonPart> person)
            implements JournalEntry {}

    record TraceTaken(TrialKey key, TraceRecord trace) implements JournalEntry {}

    record PositioningMeasured(TrialKey key, PositioningRecord positioning) implements JournalEntry {}

    record CheckJudged(TrialKey key, CheckRecord check) implements JournalEntry {}

    record TrialBroken(TrialKey key, Verdict verdict, String message, Optional<ScriptPlace> place)
            implements JournalEntry {}

    record AxisStopped(String axis, String reason, boolean ordered, boolean standstill, double seconds, String detail)
            implements JournalEntry {}

    record ParameterChanging(String axis, String name, String unit, double found, double written, boolean kept)
            implements JournalEntry {}

    record ParameterPutBack(String axis, String name, Optional<String> trouble) implements JournalEntry {}

    record PunchRaised(PunchNote item) implements JournalEntry {}

    record TrialFinished(TrialKey key, Verdict verdict, String reason) implements JournalEntry {}

    record LinkChecked(LinkRecord link) implements JournalEntry {}

    record SnapshotTaken(SnapshotRecord snapshot) implements JournalEntry {}

    record Noted(String text) implements JournalEntry {}

    /**
     * The end of the run.
     *
     * @param stopped why the run ended early
     * @param torn bytes before this line that a killed program left behind unfinished
     */
    record RunFinished(Optional<String> stopped, Optional<Torn> torn) implements JournalEntry {}

    /**
     * The unfinished end of a journal. It stays where it is and is accounted for here.
     *
     * @param bytes its length
     * @param sha256 its hash
     */
    record Torn(int bytes, String sha256) {}
}
