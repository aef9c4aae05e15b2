package org.axtrial.engine;

import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.axtrial.script.TrialOutcome;

/** Who decides whether a trial that did not pass is tried again. Used by the threads of several axes. */
@FunctionalInterface
public interface Retests {

    /** Nothing is tried again. */
    Retests NONE = (outcome, stopped) -> Optional.empty();

    /**
     * Decides about one trial, whose axis has been stopped and stands.
     *
     * @param outcome how its last attempt ended
     * @param stopped whether the run has been stopped meanwhile, so that the answer no longer matters
     * @return why it is tried again, not blank; empty to go on with the next trial
     */
    Optional<String> reason(TrialOutcome outcome, BooleanSupplier stopped) throws InterruptedException;
}
