package org.axtrial.cli;

import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.signing.SigningException;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.RigException;
import org.axtrial.site.SiteProblemsException;
import picocli.CommandLine;

/** Turns what a command throws into text for the person before the screen, and an exit code. */
final class Failures implements CommandLine.IExecutionExceptionHandler {

    private final Terminal terminal;

    Failures(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public int handleExecutionException(Exception thrown, CommandLine line, CommandLine.ParseResult result)
            throws Exception {
        if (thrown instanceof SiteProblemsException problems) {
            return refuse("The site file cannot be used", problems.problems().size(), problems);
        }
        if (thrown instanceof ScriptProblemsException problems) {
            return refuse("The scripts cannot be run", problems.problems().size(), problems);
        }
        if (thrown instanceof AnswersProblemsException problems) {
            return refuse("The answers cannot be used", problems.problems().size(), problems);
        }
        if (thrown instanceof RigException troubles) {
            return refuse("Not every axis could be opened", troubles.troubles().size(), troubles);
        }
        if (thrown instanceof WrongUseException wrong) {
            terminal.error(String.valueOf(wrong.getMessage()));
            return ExitCode.WRONG_USE.code();
        }
        if (thrown instanceof ZeroTrialsException none) {
            terminal.error(String.valueOf(none.getMessage()));
            return ExitCode.NOT_PROVEN.code();
        }
        if (thrown instanceof SigningException refused) {
            terminal.error(String.valueOf(refused.getMessage()));
            return ExitCode.WRONG_USE.code();
        }
        if (thrown instanceof EvidenceLostException lost) {
            terminal.error("Evidence: " + lost.getMessage());
            return ExitCode.EVIDENCE_BROKEN.code();
        }
        throw thrown;
    }

    private int refuse(String headline, int count, Exception problems) {
        terminal.error(headline + " (" + count + (count == 1 ? " problem" : " problems") + "). Nothing has moved.");
        terminal.error(String.valueOf(problems.getMessage()));
        return ExitCode.WRONG_USE.code();
    }
}
