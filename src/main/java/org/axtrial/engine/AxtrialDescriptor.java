package org.axtrial.engine;

import java.util.List;
import java.util.Optional;
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
        List<TrialDescriptor> trials = getDescendants().stream()
                .filter(TrialDescriptor.class::isInstance)
                .map(TrialDescriptor.class::cast)
                .toList();
        if (session != null && session.parallel()) {
            // One axis after the other needs no keeping in step, and waiting for a later axis would never end.
            context.keepInStep(trials.stream().map(TrialDescriptor::place).toList());
        }
        context.begin(trials.stream().map(TrialDescriptor::planned).toList());
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
