package org.axtrial.engine;

import java.nio.file.Path;
import java.util.Optional;
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

    TrialDescriptor(UniqueId parent, TrialDefinition trial, Axis axis, Path folder) {
        super(
                parent.append(SEGMENT, trial.id()),
                trial.id() + " " + trial.title(),
                FileSource.from(
                        folder.resolve(trial.place().script()).toFile(),
                        FilePosition.from(trial.place().line(), trial.place().column())));
        this.trial = trial;
        this.axis = axis;
    }

    PlannedTrial planned() {
        return new PlannedTrial(trial.script(), trial.id(), axis.setup().name(), trial.title(), trial.clause());
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
        RunSession session = context.session();
        TrialOutcome outcome = context.run(session.library().prepare(trial, axis, FIRST_ATTEMPT, session.sink()));
        while (outcome.verdict() != Verdict.PASS && context.stopped().isEmpty()) {
            Optional<String> reason =
                    session.retests().reason(outcome, () -> context.stopped().isPresent());
            if (reason.isEmpty() || context.stopped().isPresent()) {
                break;
            }
            int next = outcome.key().attempt() + 1;
            outcome = context.run(
                    session.library().prepare(trial, axis, next, session.sink()).because(reason));
        }
        if (outcome.verdict() != Verdict.PASS) {
            throw new TrialNotPassed(outcome);
        }
        return context;
    }
}
