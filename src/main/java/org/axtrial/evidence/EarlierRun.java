package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Verdict;

/**
 * The run whose trials are tried again in this one. Its own pack stays as it is.
 *
 * @param runId of the earlier run
 * @param recordSha256 SHA-256 of its {@code record.json}
 * @param reason why its trials are tried again, not blank
 * @param trials how those that are tried again had ended
 * @param changes how site file, drive descriptions and scripts differ from those of the earlier run
 */
public record EarlierRun(
        String runId,
        String recordSha256,
        String reason,
        List<Tried> trials,
        @JsonInclude(NON_EMPTY) List<String> changes) {

    /**
     * How one trial had ended.
     *
     * @param attempts how many attempts were made before this run, 0 if it did not come to it
     * @param verdict of the last of them
     * @param reason of that verdict; empty string if there is none
     */
    public record Tried(String script, String trial, String axis, int attempts, Verdict verdict, String reason) {

        public Tried {
            if (attempts < 0) {
                throw new IllegalArgumentException("a number of attempts is 0 or more, got " + attempts);
            }
        }
    }

    public EarlierRun {
        if (reason.isBlank()) {
            throw new IllegalArgumentException("a re-test needs a reason");
        }
        trials = List.copyOf(trials);
        changes = RunRecord.listOrNone(changes);
    }

    /** How a trial had ended before; empty if it is not tried again. */
    public Optional<Tried> of(TrialRecord trial) {
        return trials.stream()
                .filter(one -> one.script().equals(trial.script())
                        && one.trial().equals(trial.trial())
                        && one.axis().equals(trial.axis()))
                .findFirst();
    }

    /**
     * What is to be told of a trial that was tried again, for example {@code passed on attempt 2 of 2; attempt 1 in run R:
     * FAIL, too slow}. Empty if it is none of them.
     */
    public Optional<String> sentence(TrialRecord trial) {
        return of(trial).map(before -> {
            int all = before.attempts() + trial.attempts().size();
            String now = trial.attempts().isEmpty()
                    ? "not tried again"
                    : (trial.verdict() == Verdict.PASS
                                    ? "passed"
                                    : trial.verdict().printed()) + " on attempt " + all + " of " + all;
            String then = before.attempts() == 0
                    ? "not run in run " + runId
                    : "attempt " + before.attempts() + " in run " + runId + ": "
                            + before.verdict().printed()
                            + (before.reason().isEmpty() ? "" : ", " + before.reason());
            String here = trial.attempts().size() > 1 ? "; here " + trial.attemptsInWords() : "";
            return trial.trial() + " on " + trial.axis() + ": " + now + "; " + then + here;
        });
    }
}
