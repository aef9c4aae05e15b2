package org.axtrial.cli;

import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import org.axtrial.engine.AcceptanceRun;
import org.axtrial.engine.Retests;
import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.Procedure;
import org.axtrial.evidence.ProcedureMaker;
import org.axtrial.evidence.RunRecord;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.How;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;

/** A rehearsal in virtual time whose pack is thrown away: no drive is contacted, and nothing is left. */
final class Rehearsed {

    private Rehearsed() {}

    /**
     * Rehearses and hands over what it showed.
     *
     * @param use handed the procedure and the record while the traces still exist
     */
    static Procedure procedure(Terminal terminal, Site site, SiteChoice choice, BiConsumer<Procedure, RunRecord> use)
            throws ScriptProblemsException, RigException, AnswersProblemsException {
        SiteSession.Scripts scripts = choice.scripts(site);
        Readings readings = Readings.NONE;
        People people = People.REHEARSED;
        if (choice.answers != null) {
            AnswersFromFile answers = AnswersFromFile.load(choice.answers, site, scripts, site.operator());
            readings = answers;
        }
        try (RehearsalFolder temporary = new RehearsalFolder(terminal);
                SiteSession session = SiteSession.open(
                        site,
                        How.REHEARSAL,
                        scripts,
                        temporary.path(),
                        "",
                        new SiteSession.Answering(readings, people, Retests.NONE, Optional.empty()))) {
            temporary.stoppedBy(session.session().stop());
            List<String> problems = AcceptanceRun.of(session.session()).problems();
            problems.forEach(terminal::error);
            RunRecord record = session.pack().finish();
            Procedure procedure = ProcedureMaker.of(session.pack().folder(), record);
            if (temporary.mayBeUsed()) {
                use.accept(procedure, record);
            }
            return procedure;
        }
    }
}
