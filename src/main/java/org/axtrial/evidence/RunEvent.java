package org.axtrial.evidence;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Mark;
import org.axtrial.measure.PositioningPoint;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;

/**
 * What happens in a run, in the order in which it is told. The journal is the list of these, and the record is a pure
 * function of the journal.
 */
public sealed interface RunEvent {

    /** When it happened, UTC. In a rehearsal this is virtual time. */
    Instant at();

    /** The run begins; the plan names every trial that ought to run. */
    record RunStarted(Instant at, RunInfo info) implements RunEvent {}

    /**
     * An attempt of a trial begins.
     *
     * @param retestReason why the trial is tried again; empty for the first attempt
     */
    record TrialStarted(Instant at, TrialKey key, Optional<String> retestReason) implements RunEvent {

        /** A first attempt. */
        public TrialStarted(Instant at, TrialKey key) {
            this(at, key, Optional.empty());
        }
    }

    /**
     * A script did something to an axis.
     *
     * @param text what, with numbers and units, as it stands in the report
     * @param person what a person had to do with it
     */
    record StepDone(Instant at, TrialKey key, String text, Optional<ScriptPlace> place, Optional<PersonPart> person)
            implements RunEvent {

        /** A step without a person. */
        public StepDone(Instant at, TrialKey key, String text, Optional<ScriptPlace> place) {
            this(at, key, text, place, Optional.empty());
        }
    }

    /**
     * Samples were taken.
     *
     * @param name unique in the trial, fit for a file name
     * @param title what moved, as it stands above the plot
     * @param trace the samples
     */
    record TraceTaken(Instant at, TrialKey key, String name, String title, Trace trace) implements RunEvent {}

    /**
     * A measured value was held against a criterion.
     *
     * @param name the name that the script gave the check
     * @param trace name of the trace that it was measured on, if any
     * @param marks instants to draw on that trace
     * @param limits named limits that the criterion is made of
     */
    record CheckJudged(
            Instant at,
            TrialKey key,
            String name,
            Judgement judgement,
            Optional<String> trace,
            List<Mark> marks,
            List<LimitUse> limits,
            Optional<ScriptPlace> place)
            implements RunEvent {

        public CheckJudged {
            limits = List.copyOf(limits);
        }

        /** A check whose limits stand in the script as numbers. */
        public CheckJudged(
                Instant at,
                TrialKey key,
                String name,
                Judgement judgement,
                Optional<String> trace,
                List<Mark> marks,
                Optional<ScriptPlace> place) {
            this(at, key, name, judgement, trace, marks, List.of(), place);
        }
    }

    /**
     * A positioning test was evaluated (ISO 230-2); its results are judged by checks of their own.
     *
     * @param unit of targets and deviations
     * @param driveReported whether any of the positions was told by the drive
     * @param points by rising target
     */
    record PositioningMeasured(
            Instant at, TrialKey key, Unit unit, boolean driveReported, List<PositioningPoint> points)
            implements RunEvent {

        public PositioningMeasured {
            points = List.copyOf(points);
        }
    }

    /**
     * Something ended the trial before its script did.
     *
     * @param verdict FAIL, INCONCLUSIVE, BLOCKED or ERROR
     * @param message what, where, and what to do
     */
    record TrialBroken(Instant at, TrialKey key, Verdict verdict, String message, Optional<ScriptPlace> place)
            implements RunEvent {}

    /** A safe stop ended; {@code standstill} false means that nobody saw the axis stand. */
    record AxisStopped(
            Instant at, String axis, String reason, boolean ordered, boolean standstill, double seconds, String detail)
            implements RunEvent {}

    /**
     * A trial is about to change a parameter of the drive.
     *
     * @param unit symbol of the unit of both values
     * @param found value before the trial
     * @param written value that is written
     * @param kept whether it stays; else {@code found} is put back when the trial ends
     */
    record ParameterChanging(
            Instant at, String axis, String name, String unit, double found, double written, boolean kept)
            implements RunEvent {}

    /**
     * A changed parameter was to be put back.
     *
     * @param trouble why it could not be; empty if the drive shows again what was found
     */
    record ParameterPutBack(Instant at, String axis, String name, Optional<String> trouble) implements RunEvent {}

    /** A trial raised a punch item. */
    record PunchRaised(Instant at, PunchNote item) implements RunEvent {}

    /** A trial ended; the verdict is the worst of its checks and of what broke it. */
    record TrialFinished(Instant at, TrialKey key, Verdict verdict, String reason) implements RunEvent {}

    /** The link to an axis was looked at; nothing was written to its drive. */
    record LinkChecked(Instant at, LinkRecord link) implements RunEvent {}

    /**
     * The parameters of the drives were read.
     *
     * @param against what it was held against; empty if nothing
     * @param differences where the two differ
     */
    record SnapshotTaken(
            Instant at, Snapshot snapshot, Optional<String> against, List<SnapshotRecord.Difference> differences)
            implements RunEvent {}

    /** Something worth keeping that belongs to no trial. */
    record Noted(Instant at, String text) implements RunEvent {}

    /**
     * The run is over.
     *
     * @param stopped why it ended early; empty if it ran to its end
     */
    record RunFinished(Instant at, Optional<String> stopped) implements RunEvent {}
}
