package org.axtrial.engine;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisListener;
import org.axtrial.axis.StopReport;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.axtrial.evidence.TrialKey;
import org.axtrial.script.AxisEvents;
import org.axtrial.script.TrialOutcome;
import org.axtrial.script.TrialRun;
import org.axtrial.time.AtOnce;
import org.jspecify.annotations.Nullable;
import org.junit.platform.engine.CancellationToken;
import org.junit.platform.engine.support.hierarchical.EngineExecutionContext;

/** What the nodes of one run share: the running trials, the stop, and the beginning and end of the evidence. */
final class RunContext implements EngineExecutionContext {

    /** The token tells nobody when it is cancelled, so it is looked at this often. */
    private static final Duration LOOK = Duration.ofMillis(50);

    private final @Nullable RunSession session;
    private final Set<TrialRun> running = ConcurrentHashMap.newKeySet();
    private volatile InStep inStep = new InStep(List.of());
    private final List<TrialOutcome> outcomes = Collections.synchronizedList(new ArrayList<>());
    private final ScheduledThreadPoolExecutor watch;
    private volatile int planned;

    /** @param session null if nothing was asked of the engine, so that there is nothing to run and to record */
    RunContext(@Nullable RunSession session, CancellationToken cancellation) {
        this.session = session;
        watch = new ScheduledThreadPoolExecutor(1, action -> {
            Thread thread = new Thread(action, "axtrial-cancellation");
            thread.setDaemon(true);
            return thread;
        });
        if (session == null) {
            return;
        }
        session.stop().whenStopped(this::stopEverything);
        var unused = watch.scheduleWithFixedDelay(
                () -> {
                    if (cancellation.isCancellationRequested()) {
                        session.stop().stop("the run was cancelled");
                    }
                },
                0,
                LOOK.toMillis(),
                TimeUnit.MILLISECONDS);
    }

    RunSession session() {
        if (session == null) {
            throw new IllegalStateException("nothing was asked of this engine");
        }
        return session;
    }

    Optional<String> stopped() {
        return session().stop().reason();
    }

    /** Keeps trials of several axes in step, where axes run side by side. */
    void keepInStep(List<InStep.Place> trials) {
        inStep = new InStep(trials);
    }

    /** Waits until every axis of a trial is free for it. */
    void await(InStep.Place trial) throws InterruptedException {
        inStep.await(trial, () -> stopped().isPresent());
    }

    void over(InStep.Place trial) {
        inStep.over(trial);
    }

    /** Begins the evidence. */
    void begin(List<PlannedTrial> plan) {
        if (session == null) {
            return;
        }
        planned = plan.size();
        session.axes().forEach(axis -> axis.listen(new AxisEvents(session.sink(), axis.time())));
        session.sink().accept(new RunEvent.RunStarted(now(), session.info().apply(plan)));
    }

    /** Number of planned trials that have not run to their end. */
    int notRun() {
        return planned - outcomes.size();
    }

    /** Ends the evidence. */
    void end() {
        watch.shutdownNow();
        if (session == null) {
            return;
        }
        try {
            session.lastly().run();
        } finally {
            finish(session);
        }
    }

    private void finish(RunSession session) {
        try {
            session.sink().accept(new RunEvent.RunFinished(now(), stopped()));
            // An axis that is stopped later is stopped all the same, but the evidence of this run is complete.
            session.axes().forEach(axis -> axis.listen(AxisListener.NONE));
        } finally {
            session.afterwards().run();
        }
    }

    /** Runs a trial so that a stop of the run reaches it. */
    TrialOutcome run(TrialRun trial) {
        running.add(trial);
        try {
            // The switch may have been used between the look of the platform and this line.
            stopped().ifPresent(trial::stop);
            TrialOutcome outcome = trial.run();
            keep(outcome);
            return outcome;
        } catch (EvidenceLostException e) {
            session().stop().stop("evidence was lost: " + e.getMessage());
            throw e;
        } finally {
            running.remove(trial);
        }
    }

    /** The last attempt of a trial is the one that counts. */
    private void keep(TrialOutcome outcome) {
        TrialKey key = outcome.key();
        synchronized (outcomes) {
            outcomes.removeIf(earlier -> earlier.key().script().equals(key.script())
                    && earlier.key().trial().equals(key.trial())
                    && earlier.key().axis().equals(key.axis()));
            outcomes.add(outcome);
        }
    }

    List<TrialOutcome> outcomes() {
        return List.copyOf(outcomes);
    }

    /** First every axis learns that it must not move, which is quick; then each is stopped, side by side. */
    private void stopEverything(String reason) {
        List<Axis> axes = session().axes();
        axes.forEach(axis -> axis.latchStop(reason));
        Map<String, Runnable> stops = new LinkedHashMap<>();
        axes.forEach(axis -> stops.put("stop of " + axis.setup().name(), () -> stop(axis, reason)));
        AtOnce.urgently(stops);
    }

    private void stop(Axis axis, String reason) {
        StopReport unused = axis.safeStop(reason);
        for (TrialRun trial : running) {
            if (trial.axisNames().contains(axis.setup().name())) {
                trial.stop(reason);
            }
        }
    }

    /** The latest of the clocks of the axes, so that the end of a rehearsal is not before its last event. */
    private Instant now() {
        return session().axes().stream()
                .map(axis -> axis.time().instant())
                .max(Comparator.naturalOrder())
                .orElseThrow(() -> new IllegalStateException("a run without axes has no clock"));
    }
}
