package org.axtrial.engine;

import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.jspecify.annotations.Nullable;
import org.junit.platform.engine.TestDescriptor;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.support.descriptor.EngineDescriptor;
import org.junit.platform.engine.support.hierarchical.Node;

/** The root: begins the evidence before the first trial and ends it after the last. */
final class AxtrialDescriptor extends EngineDescriptor implements Node<RunContext> {

    private final @Nullable RunSession session;

    /** @param session empty if the platform asks for nothing of this engine */
    AxtrialDescriptor(UniqueId id, @Nullable RunSession session) {
        super(id, "Axtrial");
        this.session = session;
    }

    Optional<RunSession> session() {
        return Optional.ofNullable(session);
    }

    @Override
    public ExecutionMode getExecutionMode() {
        return ExecutionMode.CONCURRENT;
    }

    @Override
    public RunContext before(RunContext context) {
        List<PlannedTrial> plan = getDescendants().stream()
                .filter(TrialDescriptor.class::isInstance)
                .map(descriptor -> ((TrialDescriptor) descriptor).planned())
                .toList();
        context.begin(plan);
        return context;
    }

    @Override
    public void after(RunContext context) {
        context.end();
    }

    /** Whether there is anything to run. */
    boolean hasTrials() {
        return getDescendants().stream().anyMatch(TestDescriptor::isTest);
    }
}
