package org.axtrial.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.axis.Axis;
import org.axtrial.engine.AcceptanceRun;
import org.axtrial.engine.Retests;
import org.axtrial.engine.RunSession;
import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.RunRecord;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.How;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteProblemsException;

/** One acceptance from the checked scripts to the finished pack. */
final class Acceptance {

    private final Terminal terminal;
    private final Site site;
    private final How how;
    private final SiteChoice choice;
    private final Arming arming;
    private Agreed agreed = new Agreed();
    private RetestOf retestOf = new RetestOf();
    private ParameterBaseline baseline = new ParameterBaseline();
    private boolean retest;

    Acceptance(Terminal terminal, Site site, How how, SiteChoice choice, Arming arming) {
        this.terminal = terminal;
        this.site = site;
        this.how = how;
        this.choice = choice;
        this.arming = arming;
    }

    /** Holds the run against a procedure that was agreed before. */
    Acceptance by(Agreed procedure) {
        agreed = procedure;
        return this;
    }

    /** Holds the parameters as found against others. */
    Acceptance against(ParameterBaseline parameters) {
        baseline = parameters;
        return this;
    }

    /** Tries trials of an earlier run again. */
    Acceptance retesting(RetestOf earlier) {
        retestOf = earlier;
        return this;
    }

    /** Lets the person at the terminal have trials tried again that did not pass. */
    Acceptance withRetests() {
        retest = true;
        return this;
    }

    ExitCode run() throws ScriptProblemsException, AnswersProblemsException, SiteProblemsException, RigException {
        SiteSession.Scripts scripts = retestOf.of(choice.scripts(site), site);
        List<String> onTrial =
                scripts.onTrial(site.axes().stream().map(SiteAxis::name).toList());
        if (how == How.REAL) {
            arming.check(onTrial);
        }
        baseline.read();
        agreed.compare(terminal, site, choice);
        Progress progress = new Progress(terminal, terminal.columns());
        Optional<Path> file = Optional.ofNullable(choice.answers);
        SiteSession.Answering answering = answering(file, scripts, progress);
        SiteSession.Terms terms = new SiteSession.Terms(agreed.hash(), choice.paper.recorded());
        try (SiteSession session =
                SiteSession.open(site, how, scripts, choice.reports, choice.operator, answering, terms)) {
            agreed.record(session.pack());
            retestOf.record(session.pack());
            head(session.pack().folder());
            retestOf.tell(terminal);
            TrialPick.tell(terminal, scripts);
            Map<String, String> locked = how == How.REAL ? prove(session, onTrial) : Map.of();
            RunSession run = parameters(session);
            if (how == How.REAL) {
                arming.arm(axes(session, onTrial), locked);
            }
            session.pack().listen(progress);
            try (EndOfProgram end =
                    EndOfProgram.watch(terminal, session.session().stop())) {
                AcceptanceRun.Outcome outcome = AcceptanceRun.of(run);
                RunRecord record = finish(session);
                outcome.problems().forEach(terminal::error);
                if (answering.readings() instanceof AnswersFromFile answers) {
                    answers.unused(record).forEach(terminal::error);
                }
                new Summary(terminal).print(record, session.pack().folder());
                if (how == How.REHEARSAL) {
                    ExpectedTime.of(record, site.parallel()).tell(terminal);
                }
                return end.finished(outcome.problems().isEmpty() ? exitCode(record) : worse(exitCode(record)));
            }
        }
    }

    /** Looks at the axes on trial over their links, and tells which are locked and why. */
    private Map<String, String> prove(SiteSession session, List<String> onTrial) {
        MotionLock lock = new MotionLock(terminal);
        Map<String, String> locked = lock.check(site, session.rig(), axes(session, onTrial));
        lock.record(session.pack());
        return locked;
    }

    private static List<Axis> axes(SiteSession session, List<String> names) {
        return session.axes().stream()
                .filter(axis -> names.contains(axis.setup().name()))
                .toList();
    }

    /** Real drives and drives after work have their parameters kept as found and as left. */
    private RunSession parameters(SiteSession session) {
        if (how != How.REAL && !choice.afterWork() && !baseline.isGiven()) {
            return session.session();
        }
        FoundAndLeft parameters = new FoundAndLeft(terminal, site, session, baseline);
        parameters.found();
        return session.session().withLastly(parameters::left);
    }

    /**
     * A file answers alone, so that a run can be repeated, but a rehearsal whose file holds readings only answers for people
     * by itself; a person is asked only where time is real; a rehearsal answers
     * for people by itself.
     */
    private SiteSession.Answering answering(Optional<Path> file, SiteSession.Scripts scripts, Progress progress)
            throws AnswersProblemsException {
        String who = choice.operator.isEmpty() ? site.operator() : choice.operator;
        if (file.isPresent()) {
            AnswersFromFile answers = AnswersFromFile.load(file.get(), site, scripts, who);
            boolean rehearsed = how == How.REHEARSAL && !answers.speaksForPeople();
            return new SiteSession.Answering(answers, rehearsed ? People.REHEARSED : answers, answers, file);
        }
        if (how == How.REHEARSAL) {
            return new SiteSession.Answering(Readings.NONE, People.REHEARSED, Retests.NONE, file);
        }
        if (terminal.isInteractive()) {
            TerminalQuestions questions = new TerminalQuestions(terminal, progress, who);
            return new SiteSession.Answering(questions, questions, retest ? questions : Retests.NONE, file);
        }
        return new SiteSession.Answering(Readings.NONE, People.NONE, Retests.NONE, file);
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
