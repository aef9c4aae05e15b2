package org.axtrial.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Procedure;
import org.axtrial.evidence.ProcedureChanges;
import org.axtrial.evidence.RunEvent;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;
import picocli.CommandLine.Option;

/** The procedure that was agreed before, and how the site differs from it now. */
final class Agreed {

    @Option(
            names = "--procedure",
            paramLabel = "FILE",
            description = "procedure.json as agreed before: its SHA-256 and each deviation from it go into the report")
    private Optional<Path> file = Optional.empty();

    private Optional<String> hash = Optional.empty();
    private List<String> deviations = List.of();

    /**
     * Reads the procedure and holds a rehearsal of the site against it, before anything is opened.
     *
     * @throws WrongUseException if the file is no procedure
     */
    void compare(Terminal terminal, Site site, SiteChoice choice)
            throws ScriptProblemsException, RigException, AnswersProblemsException {
        if (file.isEmpty()) {
            return;
        }
        Procedure agreed;
        try {
            agreed = Procedure.read(file.get());
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(e.getMessage() + ". Nothing has moved.");
        }
        hash = Optional.of(agreed.sha256());
        Procedure now = Rehearsed.procedure(terminal, site, choice, (made, record) -> {});
        deviations = ProcedureChanges.between(agreed, now);
        terminal.line("Agreed procedure: " + file.get() + ", SHA-256 " + agreed.sha256());
        terminal.line(deviations.isEmpty() ? "  No deviation from it" : "  Deviations from it: " + deviations.size());
        deviations.forEach(deviation -> terminal.line("  " + deviation));
    }

    /** SHA-256 of the procedure; empty if none was given. */
    Optional<String> hash() {
        return hash;
    }

    /** Puts the deviations into the evidence, as soon as the run has begun there. */
    void record(EvidencePack pack) {
        pack.listen(event -> {
            if (event instanceof RunEvent.RunStarted started) {
                deviations.forEach(deviation -> pack.accept(new RunEvent.Noted(started.at(), deviation)));
            }
        });
    }
}
