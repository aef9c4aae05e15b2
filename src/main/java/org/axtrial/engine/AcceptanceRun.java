package org.axtrial.engine;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Verdict;
import org.axtrial.script.TrialOutcome;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.launcher.LauncherDiscoveryRequest;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.core.LauncherConfig;
import org.junit.platform.launcher.core.LauncherDiscoveryRequestBuilder;
import org.junit.platform.launcher.core.LauncherFactory;

/** Runs a session through the launcher of the JUnit Platform, with this engine and nothing else. */
public final class AcceptanceRun {

    private AcceptanceRun() {}

    /**
     * How a run ended.
     *
     * @param trials every trial that ran, in the order of ending
     * @param notRun number of planned trials that did not run
     * @param problems what kept the run from happening or broke it outside any trial, for the user to read
     * @param stopped why it ended early; empty if it did not
     */
    public record Outcome(List<TrialOutcome> trials, int notRun, List<String> problems, Optional<String> stopped) {

        public Outcome {
            trials = List.copyOf(trials);
            problems = List.copyOf(problems);
        }

        /** The worst verdict; ERROR if there are problems, NOT RUN if nothing ran. */
        public Verdict verdict() {
            List<Verdict> all = new ArrayList<>();
            trials.forEach(trial -> all.add(trial.verdict()));
            if (!problems.isEmpty()) {
                all.add(Verdict.ERROR);
            }
            if (notRun > 0) {
                all.add(Verdict.NOT_RUN);
            }
            return Verdict.worst(all);
        }
    }

    /** Runs all scripts of the session. Never throws for what happens in the run; the outcome tells. */
    public static Outcome of(RunSession session) {
        AxtrialEngine engine = new AxtrialEngine(session);
        LauncherConfig config = LauncherConfig.builder()
                .enableTestEngineAutoRegistration(false)
                .enableTestExecutionListenerAutoRegistration(false)
                .enableLauncherDiscoveryListenerAutoRegistration(false)
                .enableLauncherSessionListenerAutoRegistration(false)
                .enablePostDiscoveryFilterAutoRegistration(false)
                .addTestEngines(engine)
                .build();
        LauncherDiscoveryRequest request = LauncherDiscoveryRequestBuilder.request()
                .enableImplicitConfigurationParameters(false)
                .build();
        ProblemListener problems = new ProblemListener();
        LauncherFactory.create(config).execute(request, problems);
        List<TrialOutcome> trials = engine.lastRun().map(RunContext::outcomes).orElse(List.of());
        return new Outcome(
                trials,
                engine.lastRun().map(RunContext::notRun).orElse(0),
                List.copyOf(problems.messages),
                session.stop().reason());
    }

    /** Hears what does not belong to a trial: failed containers, and tests that failed without a verdict. */
    private static final class ProblemListener implements TestExecutionListener {

        private final List<String> messages = new ArrayList<>();

        @Override
        public synchronized void executionFinished(TestIdentifier identifier, TestExecutionResult result) {
            Optional<Throwable> thrown = result.getThrowable();
            boolean judged = thrown.isPresent() && thrown.get() instanceof TrialNotPassed;
            if (result.getStatus() != TestExecutionResult.Status.SUCCESSFUL && !judged) {
                messages.add(thrown.map(AcceptanceRun::textOf).orElse(identifier.getDisplayName() + " was aborted"));
            }
        }
    }

    private static String textOf(Throwable thrown) {
        String message = thrown.getMessage();
        return message == null || message.isBlank() ? thrown.toString() : message;
    }
}
