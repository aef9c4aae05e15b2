package org.axtrial.script;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.LimitUse;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.PunchNote;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Positioning;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.time.TimeSource;
import org.axtrial.trace.Trace;

/** Tells the evidence what one attempt of a trial does, stamped by the clock of its axis. */
final class TrialEvents {

    private final EvidenceSink sink;
    private final TrialKey key;
    private final TimeSource time;
    private int traces;

    TrialEvents(EvidenceSink sink, TrialKey key, TimeSource time) {
        this.sink = sink;
        this.key = key;
        this.time = time;
    }

    void started(Optional<String> retestReason) {
        sink.accept(new RunEvent.TrialStarted(time.instant(), key, retestReason));
    }

    void step(String text, Optional<ScriptPlace> place) {
        sink.accept(new RunEvent.StepDone(time.instant(), key, text, place));
    }

    /** A step that a person had to do with. */
    void step(String text, Optional<ScriptPlace> place, PersonPart person) {
        sink.accept(new RunEvent.StepDone(time.instant(), key, text, place, Optional.of(person)));
    }

    /** Keeps a trace and tells the name it was kept under, for example {@code 02-holdSpeed}. */
    String trace(String word, String title, Trace trace) {
        traces++;
        String name = (traces < 10 ? "0" : "") + traces + "-" + word;
        sink.accept(new RunEvent.TraceTaken(time.instant(), key, name, title, trace));
        return name;
    }

    void positioning(Positioning test) {
        sink.accept(new RunEvent.PositioningMeasured(
                time.instant(), key, test.unit(), test.source() == Source.DRIVE, test.points()));
    }

    void check(
            String name,
            Judgement judgement,
            Optional<String> trace,
            List<Mark> marks,
            List<LimitUse> limits,
            Optional<ScriptPlace> place) {
        sink.accept(new RunEvent.CheckJudged(time.instant(), key, name, judgement, trace, marks, limits, place));
    }

    void punch(String text, PunchClass grade, String owner, Optional<LocalDate> due, Optional<ScriptPlace> place) {
        Instant now = time.instant();
        sink.accept(new RunEvent.PunchRaised(
                now, new PunchNote(now, key.script(), key.trial(), key.axis(), text, grade, owner, due, place)));
    }

    void broken(TrialLatch.Cause cause) {
        sink.accept(new RunEvent.TrialBroken(time.instant(), key, cause.verdict(), cause.message(), cause.place()));
    }

    void finished(Verdict verdict, String reason) {
        sink.accept(new RunEvent.TrialFinished(time.instant(), key, verdict, reason));
    }
}
