package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.platform.engine.discovery.DiscoverySelectors.selectDirectory;
import static org.junit.platform.engine.discovery.DiscoverySelectors.selectFile;
import static org.junit.platform.engine.discovery.DiscoverySelectors.selectUniqueId;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import org.axtrial.axis.Axis;
import org.axtrial.axis.EnvelopeTrippedException;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo;
import org.axtrial.measure.Verdict;
import org.axtrial.script.FakeAxis;
import org.axtrial.script.ScriptLibrary;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.platform.engine.CancellationToken;
import org.junit.platform.engine.DiscoveryIssue;
import org.junit.platform.engine.DiscoverySelector;
import org.junit.platform.testkit.engine.EngineExecutionResults;
import org.junit.platform.testkit.engine.EngineTestKit;

@Timeout(60)
class AxtrialEngineTest {

    private static final String PASSING = """
            import { trial, nominal } from "axtrial";
            for (const id of ["A-1", "A-2"]) {
              trial("Goes there", { id, clause: "4.2" }, (axis, t) => {
                axis.enable();
                t.check("Change", axis.moveBy(1, "rev").travel(), nominal(1, "rev").plusMinus(1, "deg"));
              });
            }
            """;

    @TempDir
    Path folder;

    private final List<RunEvent> events = Collections.synchronizedList(new ArrayList<>());
    private final StopSwitch stop = new StopSwitch();
    private final FakeAxis x = FakeAxis.rotary("X");
    private final FakeAxis y = FakeAxis.rotary("Y");
    private boolean parallel = true;
    private EvidenceSink sink = events::add;

    @BeforeEach
    void writeScripts() throws IOException {
        Files.createDirectories(folder.resolve("sub"));
        Files.writeString(folder.resolve("a.js"), PASSING);
        Files.writeString(folder.resolve("sub/b.js"), PASSING.replace("A-", "B-"));
        Files.writeString(folder.resolve("_module.js"), "export const n = 1;");
    }

    private RunSession session(List<Axis> axes, String... scripts) {
        return new RunSession(
                new ScriptLibrary(folder),
                List.of(scripts),
                axes,
                event -> sink.accept(event),
                plan -> new RunInfo(
                        "run",
                        RunInfo.Mode.REHEARSAL,
                        "axtrial",
                        "Java",
                        "",
                        Map.of(),
                        Map.of(),
                        "rule",
                        List.of(),
                        plan),
                parallel,
                stop,
                () -> {});
    }

    private EngineExecutionResults run(RunSession session, DiscoverySelector... selectors) {
        return EngineTestKit.engine(new AxtrialEngine(session))
                .selectors(selectors)
                .execute();
    }

    private <T extends RunEvent> List<T> events(Class<T> type) {
        return events.stream().filter(type::isInstance).map(type::cast).toList();
    }

    @Test
    void runsEveryTrialOnEveryAxisAndBeginsAndEndsTheEvidence() {
        EngineExecutionResults results = run(session(List.of(x, y), "a.js", "sub/b.js"));

        results.testEvents().assertStatistics(stats -> stats.started(8).succeeded(8));
        assertThat(events.get(0)).isInstanceOf(RunEvent.RunStarted.class);
        assertThat(events.get(events.size() - 1)).isInstanceOf(RunEvent.RunFinished.class);
        assertThat(events(RunEvent.RunStarted.class).get(0).info().plan())
                .extracting(trial -> trial.axis() + " " + trial.script() + " " + trial.trial() + " " + trial.clause())
                .containsExactly(
                        "X a.js A-1 4.2",
                        "X a.js A-2 4.2",
                        "X sub/b.js B-1 4.2",
                        "X sub/b.js B-2 4.2",
                        "Y a.js A-1 4.2",
                        "Y a.js A-2 4.2",
                        "Y sub/b.js B-1 4.2",
                        "Y sub/b.js B-2 4.2");
        assertThat(events(RunEvent.TrialFinished.class))
                .filteredOn(event -> event.key().axis().equals("X"))
                .extracting(event -> event.key().trial())
                .containsExactly("A-1", "A-2", "B-1", "B-2");
    }

    @Test
    void axesMoveAtTheSameTime() {
        CyclicBarrier bothMoving = new CyclicBarrier(2);
        Runnable meet = () -> {
            try {
                bothMoving.await(20, TimeUnit.SECONDS);
            } catch (Exception e) {
                throw new IllegalStateException("the other axis did not move meanwhile", e);
            }
        };
        x.inMotion(meet);
        y.inMotion(meet);
        run(session(List.of(x, y), "a.js")).testEvents().assertStatistics(stats -> stats.succeeded(4));
    }

    @Test
    void axesTakeTurnsWhenTheyMayNotMoveTogether() {
        parallel = false;
        run(session(List.of(x, y), "a.js")).testEvents().assertStatistics(stats -> stats.succeeded(4));
        assertThat(events(RunEvent.TrialStarted.class))
                .extracting(event -> event.key().toString())
                .containsExactly("A-1 on X", "A-2 on X", "A-1 on Y", "A-2 on Y");
    }

    @Test
    void uniqueIdSelectsOneTrial() {
        run(session(List.of(x, y), "a.js"), selectUniqueId("[engine:axtrial]/[axis:Y]/[script:sub%2Fb.js]/[trial:B-2]"))
                .testEvents()
                .assertStatistics(stats -> stats.started(1).succeeded(1));
        assertThat(events(RunEvent.TrialStarted.class))
                .extracting(event -> event.key().toString())
                .containsExactly("B-2 on Y");
    }

    @Test
    void uniqueIdOfAnAxisSelectsTheScriptsOfTheSession() {
        run(session(List.of(x, y), "a.js"), selectUniqueId("[engine:axtrial]/[axis:Y]"))
                .testEvents()
                .assertStatistics(stats -> stats.succeeded(2));
    }

    @Test
    void fileAndFolderSelectScripts() {
        run(session(List.of(x), "a.js"), selectFile(folder.resolve("sub/b.js").toFile()))
                .testEvents()
                .assertStatistics(stats -> stats.succeeded(2));
        run(session(List.of(x), "a.js"), selectDirectory(folder.toFile()))
                .testEvents()
                .assertStatistics(stats -> stats.succeeded(4));
    }

    @Test
    void verdictThatIsNotPassIsAFailureWithMeasuredAndExpected() throws IOException {
        Files.writeString(folder.resolve("a.js"), PASSING.replace("nominal(1,", "nominal(2,"));
        y.failNextMotion(new EnvelopeTrippedException("left the travel window"));
        EngineExecutionResults results = run(session(List.of(x, y), "a.js"));
        results.testEvents().assertStatistics(stats -> stats.started(4).failed(4));
        assertThat(results.testEvents().failed().stream()
                        .map(event -> event.getRequiredPayload(org.junit.platform.engine.TestExecutionResult.class)
                                .getThrowable()
                                .orElseThrow()
                                .getMessage()))
                .anyMatch(message ->
                        message.startsWith("FAIL: A-1 on X: Change: measured 1.0000000 rev, expected 2 rev ± 1°"))
                .contains("FAIL: A-1 on Y: left the travel window [a.js:5:23]");
    }

    @Test
    void scriptProblemsAreIssuesAllAtOnceAndNothingRuns() throws IOException {
        Files.writeString(folder.resolve("bad.js"), """
                import { trial } from "axtrial";
                trial("No id", {}, () => {});
                trial("Twice", { id: "T" }, () => {});
                trial("Twice", { id: "T", axes: "Z" }, () => {});
                trial("Other axis", { id: "U", axes: ["Z"] }, () => {});
                """);
        RunSession session = session(List.of(x), "a.js", "bad.js", "_module.js");
        assertThat(EngineTestKit.engine(new AxtrialEngine(session)).discover().getDiscoveryIssues())
                .extracting(DiscoveryIssue::message)
                .hasSize(4)
                .anyMatch(message -> message.startsWith("bad.js:2:1: trial \"No id\" has no id"))
                .anyMatch(message -> message.startsWith("bad.js:4:1: trial: the id \"T\" is already used in line 3"))
                .anyMatch(message -> message.startsWith("bad.js:5:1: trial \"U\" is for axis \"Z\""))
                .anyMatch(message -> message.startsWith("_module.js: the script declares no trial"));

        AcceptanceRun.Outcome outcome = AcceptanceRun.of(session);
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.problems()).hasSize(1);
        assertThat(outcome.problems().get(0)).contains("bad.js:2:1", "bad.js:5:1", "_module.js");
        assertThat(events).isEmpty();
        assertThat(x.log()).isEmpty();
    }

    @Test
    void nothingToRunIsAProblemAndNotAPass() {
        assertThat(AcceptanceRun.of(session(List.of(x))).verdict()).isEqualTo(Verdict.ERROR);
        assertThat(AcceptanceRun.of(session(List.of(), "a.js")).verdict()).isEqualTo(Verdict.ERROR);
        assertThat(AcceptanceRun.of(session(List.of(x), "gone.js")).problems().get(0))
                .contains("there is no file \"gone.js\" in the scripts folder");
    }

    @Test
    void acceptanceRunTellsEveryOutcome() {
        AcceptanceRun.Outcome outcome = AcceptanceRun.of(session(List.of(x, y), "a.js"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.PASS);
        assertThat(outcome.trials()).hasSize(4);
        assertThat(outcome.notRun()).isZero();
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.stopped()).isEmpty();
    }

    @Test
    void aStopAfterTheEndStopsTheAxesAndAddsNothingToTheEvidence() {
        AcceptanceRun.Outcome unused = AcceptanceRun.of(session(List.of(x, y), "a.js"));
        int told = events.size();

        stop.stop("Ctrl-C at the last moment");

        assertThat(x.log()).contains("safeStop Ctrl-C at the last moment");
        assertThat(y.log()).contains("safeStop Ctrl-C at the last moment");
        assertThat(events).hasSize(told);
        assertThat(events.get(told - 1)).isInstanceOf(RunEvent.RunFinished.class);
    }

    @Test
    void stopReachesTheMotionsAndSkipsTheRest() throws InterruptedException {
        CountDownLatch moving = new CountDownLatch(2);
        for (FakeAxis axis : List.of(x, y)) {
            axis.waitInMotionUntilStopped();
            axis.inMotion(moving::countDown);
        }
        Thread operator = new Thread(() -> {
            try {
                if (moving.await(30, TimeUnit.SECONDS)) {
                    stop.stop("operator pressed stop");
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        operator.start();
        AcceptanceRun.Outcome outcome = AcceptanceRun.of(session(List.of(x, y), "a.js"));
        operator.join();

        assertThat(outcome.stopped()).contains("operator pressed stop");
        assertThat(outcome.trials())
                .extracting(trial -> trial.key().trial() + " " + trial.verdict())
                .containsExactly("A-1 INCONCLUSIVE", "A-1 INCONCLUSIVE");
        assertThat(outcome.notRun()).isEqualTo(2);
        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(events(RunEvent.RunFinished.class))
                .extracting(RunEvent.RunFinished::stopped)
                .containsExactly(Optional.of("operator pressed stop"));
        assertThat(events(RunEvent.TrialStarted.class)).hasSize(2);
        assertThat(x.log()).contains("safeStop operator pressed stop");
    }

    @Test
    void cancellationOfThePlatformStopsABusyScript() throws IOException {
        Files.writeString(folder.resolve("a.js"), """
                import { trial } from "axtrial";
                trial("Busy", { id: "A-1" }, (axis) => { axis.moveBy(1, "rev"); for (;;) {} });
                trial("Later", { id: "A-2" }, () => {});
                """);
        CancellationToken token = CancellationToken.create();
        x.inMotion(token::cancel);
        EngineExecutionResults results = EngineTestKit.engine(new AxtrialEngine(session(List.of(x), "a.js")))
                .cancellationToken(token)
                .execute();
        results.testEvents().assertStatistics(stats -> stats.started(1).failed(1));
        assertThat(events(RunEvent.TrialFinished.class))
                .extracting(RunEvent.TrialFinished::verdict)
                .containsExactly(Verdict.INCONCLUSIVE);
        assertThat(x.log()).contains("safeStop the run was cancelled").endsWith("endTrial");
        assertThat(events(RunEvent.RunFinished.class).get(0).stopped()).contains("the run was cancelled");
    }

    @Test
    void lostEvidenceEndsTheRun() {
        sink = event -> {
            if (event instanceof RunEvent.StepDone) {
                throw new EvidenceLostException("journal.jsonl: disk full", new IOException("full"));
            }
            events.add(event);
        };
        AcceptanceRun.Outcome outcome = AcceptanceRun.of(session(List.of(x), "a.js"));
        assertThat(outcome.problems()).containsExactly("journal.jsonl: disk full");
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.stopped()).contains("evidence was lost: journal.jsonl: disk full");
        assertThat(events(RunEvent.TrialStarted.class)).hasSize(1);
        assertThat(x.log()).contains("endTrial");
    }

    @Test
    void engineOfTheServiceLoaderIsQuietWhenNothingIsAskedOfIt() {
        EngineTestKit.engine(AxtrialEngine.ID).execute().allEvents().assertStatistics(stats -> stats.failed(0));
    }
}
