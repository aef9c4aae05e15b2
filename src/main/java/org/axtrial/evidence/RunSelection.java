package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * Which trials of the scripts a run was asked for, and which not.
 *
 * @param by what they were chosen by, one sentence part for each kind of choice, for example {@code after motor}
 * @param picked the trials that were to run, with the reason for each
 * @param leftOut the trials that were not, and so prove nothing
 * @param notCovered what should be proven but no script covers
 * @param notes what else whoever chose must heed
 */
public record RunSelection(
        List<String> by,
        List<Picked> picked,
        List<LeftOut> leftOut,
        @JsonInclude(NON_EMPTY) List<String> notCovered,
        @JsonInclude(NON_EMPTY) List<String> notes) {

    /** One trial that was chosen, and why. */
    public record Picked(String script, String trial, String axis, String reason) {}

    /** One trial that was not chosen. */
    public record LeftOut(String script, String trial, String axis, String title) {}

    public RunSelection {
        by = List.copyOf(by);
        picked = List.copyOf(picked);
        leftOut = List.copyOf(leftOut);
        notCovered = RunRecord.listOrNone(notCovered);
        notes = RunRecord.listOrNone(notes);
    }

    /** Why a trial was chosen; empty if it was not. */
    public Optional<String> reason(String script, String trial, String axis) {
        return picked.stream()
                .filter(one -> one.script().equals(script)
                        && one.trial().equals(trial)
                        && one.axis().equals(axis))
                .map(Picked::reason)
                .findFirst();
    }

    /** How it reads in one line: {@code after motor, and axis TABLE: 30 of 45 trials}. */
    public String sentence() {
        int all = picked.size() + leftOut.size();
        return String.join(", and ", by) + ": " + picked.size() + " of " + all + (all == 1 ? " trial" : " trials");
    }
}
