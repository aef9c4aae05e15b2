package org.axtrial.cli;

import java.util.Optional;
import org.axtrial.script.TrialOutcome;

/** Whether a trial that did not pass is tried again, and why. */
final class RetestQuestion implements Question<Optional<String>> {

    private final Terminal terminal;
    private final TrialOutcome outcome;
    private boolean answered;

    RetestQuestion(Terminal terminal, TrialOutcome outcome) {
        this.terminal = terminal;
        this.outcome = outcome;
    }

    @Override
    public void put() {
        terminal.line("");
        terminal.line("RE-TEST?  axis " + outcome.key().axis() + ", trial "
                + outcome.key().trial() + ": " + outcome.verdict().printed() + " on attempt "
                + outcome.key().attempt());
        terminal.line("  " + outcome.reason());
        terminal.line("  Every attempt stays in the record; the last one counts.");
        terminal.line("  The axis may move as soon as you have given a reason: be out of its reach.");
        terminal.line("  Ctrl-C stops.");
        terminal.raw("  Reason to try it again (Enter alone goes on without): ");
    }

    @Override
    public Optional<Optional<String>> take(String line) {
        answered = true;
        return Optional.of(Optional.of(line).filter(reason -> !reason.isBlank()));
    }

    /** Never needed: at the end of the input nothing is tried again. */
    @Override
    public RuntimeException ended() {
        return new IllegalStateException("the input of the terminal has ended");
    }

    @Override
    public boolean answered() {
        return answered;
    }
}
