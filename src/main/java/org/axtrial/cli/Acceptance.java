package org.axtrial.cli;

import java.nio.file.Path;
import org.axtrial.engine.AcceptanceRun;
import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.RunRecord;
import org.axtrial.site.How;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;

/** One acceptance from the checked scripts to the finished pack. */
final class Acceptance {

    private final Terminal terminal;
    private final Site site;
    private final How how;
    private final SiteChoice choice;
    private final Arming arming;

    Acceptance(Terminal terminal, Site site, How how, SiteChoice choice, Arming arming) {
        this.terminal = terminal;
        this.site = site;
        this.how = how;
        this.choice = choice;
        this.arming = arming;
    }

    ExitCode run() throws ScriptProblemsException, RigException {
        SiteSession.Scripts scripts = SiteSession.scripts(site, choice.scripts);
        try (SiteSession session = SiteSession.open(site, how, scripts, choice.reports, choice.operator)) {
            head(session.pack().folder());
            if (how == How.REAL) {
                MotionLock lock = new MotionLock(terminal);
                arming.arm(session.axes(), lock.check(site, session.rig(), session.axes()));
                lock.record(session.pack());
            }
            session.pack().listen(new Progress(terminal, terminal.columns()));
            try (EndOfProgram end =
                    EndOfProgram.watch(terminal, session.session().stop())) {
                AcceptanceRun.Outcome outcome = AcceptanceRun.of(session.session());
                RunRecord record = finish(session);
                outcome.problems().forEach(terminal::error);
                new Summary(terminal).print(record, session.pack().folder());
                return end.finished(outcome.problems().isEmpty() ? exitCode(record) : worse(exitCode(record)));
            }
        }
    }

    private void head(Path folder) {
        terminal.line(SiteSession.TOOL + ", "
                + switch (how) {
                    case REAL -> "REAL AXES";
                    case SIMULATED -> "SIMULATED axes over Modbus TCP";
                    case REHEARSAL -> "REHEARSAL: SIMULATED axes in virtual time";
                });
        terminal.line(site.job().getOrDefault("title", site.file().toString()));
        terminal.line("Evidence goes to " + folder);
        terminal.line("");
    }

    private static RunRecord finish(SiteSession session) {
        RunRecord record = session.pack().finish();
        PackReport.write(session.pack().folder(), record);
        return record;
    }

    static ExitCode exitCode(RunRecord record) {
        return switch (record.exitCode()) {
            case 0 -> ExitCode.PASSED;
            case 1 -> ExitCode.FAILED;
            case 4 -> ExitCode.STOPPED;
            default -> ExitCode.NOT_PROVEN;
        };
    }

    /** Something broke outside of any trial, so the run did not pass whatever its trials say. */
    private static ExitCode worse(ExitCode code) {
        return code == ExitCode.STOPPED ? code : ExitCode.FAILED;
    }
}
