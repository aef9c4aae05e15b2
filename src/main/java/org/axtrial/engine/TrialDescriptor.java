package org.axtrial.engine;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.axtrial.measure.Verdict;
import org.axtrial.script.TrialDefinition;
import org.axtrial.script.TrialOutcome;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.support.descriptor.AbstractTestDescriptor;
import org.junit.platform.engine.support.descriptor.FilePosition;
import org.junit.platform.engine.support.descriptor.FileSource;
import org.junit.platform.engine.support.hierarchical.Node;

/** One trial on one axis. */
final class TrialDescriptor extends AbstractTestDescriptor implements Node<RunContext> {

    static final String SEGMENT = "trial";

    private static final int FIRST_ATTEMPT = 1;

    private final TrialDefinition trial;
    private final Axis axis;
    private final List<Axis> others;
    private final InStep.Place place;

    /**
     * @param others the axes that move at once with the one on trial
     * @param rank place of the trial in the order of the scripts
     */
    TrialDescriptor(UniqueId parent, TrialDefinition trial, Axis axis, List<Axis> others, int rank, Path folder) {
        super(
                parent.append(SEGMENT, trial.id()),
                trial.id() + " " + trial.title(),
                FileSource.from(
                        folder.resolve(trial.place().script()).toFile(),
                        FilePosition.from(trial.place().line(), trial.place().column())));
        this.trial = trial;
        this.axis = axis;
        this.others = List.copyOf(others);
        String name = axis.setup().name();
        Set<String> axes = new HashSet<>(Set.of(name));
        others.forEach(other -> axes.add(other.setup().name()));
        this.place = new InStep.Place(rank, name, axes);
    }

    InStep.Place place() {
        return place;
    }

    PlannedTrial planned() {
        return new PlannedTrial(
                trial.script(), trial.id(), axis.setup().name(), trial.title(), trial.clause(), trial.with());
    }

    @Override
    public Type getType() {
        return Type.TEST;
    }

    @Override
    public ExecutionMode getExecutionMode() {
        return ExecutionMode.SAME_THREAD;
    }

    @Override
    public SkipResult shouldBeSkipped(RunContext context) {
        return context.stopped()
                .map(reason -> SkipResult.skip("NOT RUN: " + reason))
                .orElseGet(SkipResult::doNotSkip);
    }

    @Override
    public RunContext execute(RunContext context, DynamicTestExecutor dynamic) throws InterruptedException {
        try {
            context.await(place);
            if (context.stopped().isEmpty()) {
                run(context);
            }
        } finally {
            context.over(place);
        }
        return context;
    }

    private void run(RunContext context) throws InterruptedException {
        RunSession session = context.session();
        TrialOutcome outcome =
                context.run(session.library().prepare(trial, axis, others, FIRST_ATTEMPT, session.sink()));
        while (outcome.verdict() != Verdict.PASS && context.stopped().isEmpty()) {
            Optional<String> reason =
                    session.retests().reason(outcome, () -> context.stopped().isPresent());
            if (reason.isEmpty() || context.stopped().isPresent()) {
                break;
            }
            int next = outcome.key().attempt() + 1;
            outcome = context.run(session.library()
                    .prepare(trial, axis, others, next, session.sink())
                    .because(reason));
        }
        if (outcome.verdict() != Verdict.PASS) {
            throw new TrialNotPassed(outcome);
        }
    }
}
