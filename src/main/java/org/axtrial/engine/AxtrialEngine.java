package org.axtrial.engine;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.platform.engine.EngineDiscoveryRequest;
import org.junit.platform.engine.ExecutionRequest;
import org.junit.platform.engine.TestDescriptor;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.support.hierarchical.HierarchicalTestEngine;
import org.junit.platform.engine.support.hierarchical.HierarchicalTestExecutorService;
import org.junit.platform.engine.support.hierarchical.ParallelHierarchicalTestExecutorServiceFactory;
import org.junit.platform.engine.support.hierarchical.ParallelHierarchicalTestExecutorServiceFactory.ParallelExecutorServiceType;

/** Runs trials as tests of the JUnit Platform: one test for each trial and axis. */
public final class AxtrialEngine extends HierarchicalTestEngine<RunContext> {

    public static final String ID = "axtrial";

    private final @Nullable RunSession given;
    private volatile @Nullable RunContext lastRun;

    /** For the platform, which finds the engine as a service: the session comes from configuration parameters. */
    public AxtrialEngine() {
        this.given = null;
    }

    public AxtrialEngine(RunSession session) {
        this.given = session;
    }

    @Override
    public String getId() {
        return ID;
    }

    @Override
    public TestDescriptor discover(EngineDiscoveryRequest request, UniqueId id) {
        Optional<RunSession> session =
                given != null ? Optional.of(given) : SessionFromSite.open(request.getConfigurationParameters());
        return session.map(open -> new TrialDiscovery(open, request, id).discover())
                .orElseGet(() -> new AxtrialDescriptor(id, null));
    }

    @Override
    protected HierarchicalTestExecutorService createExecutorService(ExecutionRequest request) {
        AxtrialDescriptor root = (AxtrialDescriptor) request.getRootTestDescriptor();
        boolean parallel = root.session().map(RunSession::parallel).orElse(false);
        int axes = parallel ? Math.max(1, root.getChildren().size()) : 1;
        return ParallelHierarchicalTestExecutorServiceFactory.create(
                ParallelExecutorServiceType.WORKER_THREAD_POOL, new OneThreadPerAxis(axes));
    }

    @Override
    protected RunContext createExecutionContext(ExecutionRequest request) {
        AxtrialDescriptor root = (AxtrialDescriptor) request.getRootTestDescriptor();
        RunContext context = new RunContext(root.session().orElse(null), request.getCancellationToken());
        lastRun = context;
        return context;
    }

    /** What came of the trials of the last execution. */
    Optional<RunContext> lastRun() {
        return Optional.ofNullable(lastRun);
    }
}
