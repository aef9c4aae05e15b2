package org.axtrial.engine;

import org.axtrial.measure.Verdict;
import org.axtrial.script.TrialOutcome;

/** A trial that did not pass. The test platform knows only passed and failed; the verdict stands in the message. */
public final class TrialNotPassed extends AssertionError {

    private static final long serialVersionUID = 1L;

    private final Verdict verdict;

    TrialNotPassed(TrialOutcome outcome) {
        super(outcome.verdict().printed() + ": " + outcome.key() + ": " + outcome.reason());
        verdict = outcome.verdict();
    }

    public Verdict verdict() {
        return verdict;
    }

    /** The place that counts is the one in the script, which the message names. */
    @Override
    public Throwable fillInStackTrace() {
        return this;
    }
}
