package org.axtrial.script;

import java.util.Optional;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Verdict;
import org.jspecify.annotations.Nullable;

/**
 * Holds the first thing that broke a trial. It is kept in Java, out of reach of the script, so that no {@code catch} of
 * the script can make it undone. Used by several threads.
 */
final class TrialLatch {

    private @Nullable Cause cause;
    private @Nullable EvidenceLostException evidenceLost;

    /**
     * Why a trial broke.
     *
     * @param verdict what it makes of the trial
     * @param message what, and what to do
     * @param place where the script was
     */
    record Cause(Verdict verdict, String message, Optional<ScriptPlace> place) {}

    /** Keeps the cause unless there is one already; tells whether it was the first. */
    synchronized boolean trip(Verdict verdict, String message, Optional<ScriptPlace> place) {
        if (cause != null) {
            return false;
        }
        cause = new Cause(verdict, message, place);
        return true;
    }

    /** Adds the place to a cause that came from another thread and could not know it. */
    synchronized void placeIfUnknown(Optional<ScriptPlace> place) {
        if (cause != null && cause.place().isEmpty()) {
            cause = new Cause(cause.verdict(), cause.message(), place);
        }
    }

    synchronized Optional<Cause> cause() {
        return Optional.ofNullable(cause);
    }

    /** Keeps that evidence was lost: then it is not the trial but the whole run that ends. */
    synchronized void evidenceLost(EvidenceLostException lost) {
        if (evidenceLost == null) {
            evidenceLost = lost;
        }
    }

    synchronized Optional<EvidenceLostException> evidenceLost() {
        return Optional.ofNullable(evidenceLost);
    }
}
