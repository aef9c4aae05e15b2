package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.axtrial.quantity.Unit;

/** Makes a {@link Procedure} from the pack of a rehearsal. */
public final class ProcedureMaker {

    private static final String POSITION = "position";
    private static final String SPEED = "speed";
    private static final double NANO = 1e-9;

    private final Path folder;
    private final RunRecord record;

    private ProcedureMaker(Path folder, RunRecord record) {
        this.folder = folder;
        this.record = record;
    }

    /**
     * The procedure that a rehearsal shows.
     *
     * @param folder the pack, for traces and scripts
     * @throws EvidenceLostException if a trace or script is missing or altered
     * @throws IllegalArgumentException if the record is not that of a rehearsal
     */
    public static Procedure of(Path folder, RunRecord record) {
        if (!record.setup().mode().equals(Optional.of(RunInfo.Mode.REHEARSAL))) {
            throw new IllegalArgumentException("a procedure is made from a rehearsal; this run was "
                    + record.setup().mode().map(Enum::name).orElse("of unknown mode"));
        }
        return new ProcedureMaker(folder, record).make();
    }

    private Procedure make() {
        List<Procedure.TrialPlan> trials =
                record.trials().stream().map(this::trial).toList();
        RunSetup setup = record.setup();
        return new Procedure(
                Procedure.FORMAT,
                setup.job(),
                setup.machine(),
                setup.decisionRule(),
                setup.axes().stream()
                        .map(axis ->
                                new Procedure.AxisPlan(axis.name(), axis.description(), axis.driveType(), axis.facts()))
                        .toList(),
                setup.instruments().stream()
                        .map(RunInfo.InstrumentInfo::instrument)
                        .toList(),
                record.files(),
                trials.stream().mapToDouble(Procedure.TrialPlan::seconds).sum(),
                trials);
    }

    private Procedure.TrialPlan trial(TrialRecord trial) {
        Optional<TrialRecord.Attempt> attempt = trial.deciding();
        List<Procedure.MotionPlan> motions = attempt.stream()
                .flatMap(a -> a.traces().stream())
                .map(this::motion)
                .toList();
        return new Procedure.TrialPlan(
                trial.script(),
                trial.trial(),
                trial.axis(),
                trial.title(),
                trial.clause(),
                purpose(trial.script()),
                attempt.map(a -> a.lasted().toNanos() * NANO).orElse(0.0),
                motions.stream().flatMap(motion -> motion.space().stream()).reduce(ProcedureMaker::both),
                attempt.stream()
                        .flatMap(a -> a.steps().stream())
                        .map(ProcedureMaker::step)
                        .toList(),
                motions,
                attempt.stream()
                        .flatMap(a -> a.checks().stream())
                        .map(ProcedureMaker::check)
                        .toList(),
                record.setup()
                        .selection()
                        .flatMap(chosen -> chosen.reason(trial.script(), trial.trial(), trial.axis()))
                        .orElse(""),
                attempt.map(a -> a.broken().stream()
                                .map(TrialRecord.Break::message)
                                .toList())
                        .orElse(List.of("The rehearsal did not come to this trial.")));
    }

    private static Procedure.Space both(Procedure.Space a, Procedure.Space b) {
        return new Procedure.Space(Math.min(a.lowest(), b.lowest()), Math.max(a.highest(), b.highest()), a.unit());
    }

    private static Procedure.StepPlan step(TrialRecord.Step step) {
        return new Procedure.StepPlan(
                step.text(),
                step.person().map(PersonPart::kind),
                step.person().map(PersonPart::request).orElse(""));
    }

    private static Procedure.CheckPlan check(CheckRecord check) {
        return new Procedure.CheckPlan(
                check.name(),
                check.measured().name() + ": " + check.measured().definition(),
                check.criterion().printed(),
                check.limits());
    }

    private Procedure.MotionPlan motion(TraceRecord trace) {
        TraceFile file = TraceFile.read(folder, trace);
        double[] times = file.times();
        double[] positions = file.values(POSITION).orElse(new double[0]);
        double[] speeds = file.values(SPEED).orElse(new double[0]);
        Optional<Unit> unit = unit(trace, POSITION);
        boolean moved = positions.length > 0 && unit.isPresent();
        return new Procedure.MotionPlan(
                trace.title(),
                moved ? OptionalDouble.of(positions[positions.length - 1] - positions[0]) : OptionalDouble.empty(),
                unit,
                Arrays.stream(speeds).map(Math::abs).max(),
                unit(trace, SPEED),
                times.length == 0 ? 0 : times[times.length - 1],
                moved
                        ? Optional.of(new Procedure.Space(
                                Arrays.stream(positions).min().orElseThrow(),
                                Arrays.stream(positions).max().orElseThrow(),
                                unit.orElseThrow()))
                        : Optional.empty());
    }

    private static Optional<Unit> unit(TraceRecord trace, String channel) {
        return trace.channels().stream()
                .filter(column -> column.name().equals(channel))
                .map(TraceRecord.Column::unit)
                .findFirst();
    }

    /** The comment lines that a script begins with, as running text. */
    private String purpose(String script) {
        Path file = folder.resolve("scripts").resolve(script);
        try {
            return Files.readString(file)
                    .lines()
                    .map(String::strip)
                    .takeWhile(line -> line.startsWith("//"))
                    .map(line -> line.substring(2).strip())
                    .collect(Collectors.joining(" "));
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be read: " + e, e);
        }
    }
}
