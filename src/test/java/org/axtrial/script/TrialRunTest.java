package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.assertj.core.data.Offset;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.AxisNotReadyException;
import org.axtrial.axis.AxisStoppedException;
import org.axtrial.axis.AxisUnreachableException;
import org.axtrial.axis.DriveTrippedException;
import org.axtrial.axis.EnvelopeRefusedException;
import org.axtrial.axis.EnvelopeTrippedException;
import org.axtrial.axis.OutcomeUnprovenException;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(60)
class TrialRunTest {

    @TempDir
    Path folder;

    @Test
    void passingTrialTellsEveryEventInOrder() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  t.step("Out");
                  axis.enable();
                  const out = axis.moveBy(1, "rev", { speed: [300, "rpm"], acceleration: [50, "rev/s2"], settle: [0.1, "s"] });
                  t.check("Position change", out.travel(), nominal(1, "rev").plusMinus(0.5, "deg"));
                  t.note("done");"""));

        assertThat(outcome).isEqualTo(new TrialOutcome(new TrialKey("t.js", "T-1", "X", 1), Verdict.PASS, ""));
        assertThat(bench.events)
                .extracting(event -> event.getClass().getSimpleName())
                .containsExactly(
                        "TrialStarted",
                        "StepDone",
                        "StepDone",
                        "StepDone",
                        "TraceTaken",
                        "CheckJudged",
                        "StepDone",
                        "AxisStopped",
                        "TrialFinished");
        assertThat(bench.events(RunEvent.StepDone.class))
                .extracting(RunEvent.StepDone::text)
                .containsExactly(
                        "Out",
                        "Enable",
                        "Move by 1 rev at 300 r/min, acceleration 50 rev/s², sampled 0.1 s longer",
                        "Note: done");
        assertThat(bench.axis.log())
                .containsExactly(
                        "beginTrial",
                        "enable",
                        "moveBy 1 rev Optional[300 rpm] Optional[50 rev/s2] Optional[PT0.1S]",
                        "endTrial");
        RunEvent.TraceTaken trace = bench.events(RunEvent.TraceTaken.class).get(0);
        assertThat(trace.name()).isEqualTo("01-moveBy");
        RunEvent.CheckJudged check = bench.events(RunEvent.CheckJudged.class).get(0);
        assertThat(check.name()).isEqualTo("Position change");
        assertThat(check.trace()).contains("01-moveBy");
        assertThat(check.place())
                .contains(new ScriptPlace(
                        "t.js",
                        6,
                        1,
                        "t.check(\"Position change\", out.travel(), nominal(1, \"rev\").plusMinus(0.5, \"deg\"));"));
        assertThat(bench.events(RunEvent.TrialStarted.class).get(0).at())
                .isEqualTo(Instant.parse("2026-01-01T08:00:00Z"));
        // 126 samples of 10 ms of virtual time.
        assertThat(check.at()).isEqualTo(Instant.parse("2026-01-01T08:00:01.260Z"));
    }

    @Test
    void failedCheckFailsTheTrialAndSaysMeasuredAgainstExpected() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  axis.enable();
                  const out = axis.moveBy(1, "rev");
                  try { t.check("Change", out.travel(), nominal(2, "rev").plusMinus(1, "deg")); } catch (e) {}
                  t.check("Again", out.travel(), nominal(1, "rev").plusMinus(1, "deg"));"""));

        assertThat(outcome.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(outcome.reason()).startsWith("Change: measured 1.0000000 rev, expected 2 rev ± 1°");
        assertThat(bench.events(RunEvent.CheckJudged.class)).hasSize(2);
    }

    @Test
    void trialWithoutCheckProvesNothing() {
        TrialOutcome outcome = new ScriptBench(folder).run(ScriptBench.trial("  axis.enable();"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("no check was made");
    }

    @ParameterizedTest
    @MethodSource
    void everyEndOfAMotionHasItsVerdict(AxisException end, Verdict verdict) {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.failNextMotion(end);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  axis.enable();
                  axis.moveBy(1, "rev");"""));

        assertThat(outcome.verdict()).isEqualTo(verdict);
        assertThat(outcome.reason()).isEqualTo("why [t.js:4:1]");
        assertThat(bench.broken().verdict()).isEqualTo(verdict);
        assertThat(bench.broken().place().orElseThrow().text()).isEqualTo("axis.moveBy(1, \"rev\");");
        assertThat(bench.axis.log()).endsWith("endTrial");
    }

    static Stream<Arguments> everyEndOfAMotionHasItsVerdict() {
        return Stream.of(
                Arguments.of(new EnvelopeRefusedException("why"), Verdict.ERROR),
                Arguments.of(new EnvelopeTrippedException("why"), Verdict.FAIL),
                Arguments.of(new OutcomeUnprovenException("why"), Verdict.INCONCLUSIVE),
                Arguments.of(new AxisUnreachableException("why"), Verdict.ERROR),
                Arguments.of(new DriveTrippedException("why"), Verdict.FAIL),
                Arguments.of(new AxisStoppedException("why"), Verdict.INCONCLUSIVE),
                Arguments.of(new AxisNotReadyException("why"), Verdict.BLOCKED));
    }

    @Test
    void caughtTripStaysAndEveryLaterWordIsRefused() {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.failNextMotion(new EnvelopeTrippedException("left the travel window"));
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  axis.enable();
                  let out;
                  try { axis.moveBy(1, "rev"); } catch (e) {}
                  try { out = axis.moveBy(-1, "rev"); } catch (e) {}
                  try { axis.disable(); } catch (e) {}
                  try { t.note("went on"); } catch (e) {}
                  return 5;"""));

        assertThat(outcome.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(outcome.reason()).startsWith("left the travel window");
        assertThat(bench.axis.log())
                .containsExactly(
                        "beginTrial",
                        "enable",
                        "moveBy 1 rev Optional.empty Optional.empty Optional.empty",
                        "endTrial");
        assertThat(bench.events(RunEvent.StepDone.class)).hasSize(1);
    }

    @Test
    void caughtMistakeStaysAnError() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  try { axis.movBy(1, "rev"); } catch (e) {}
                  try { axis.enable(); } catch (e) {}"""));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(bench.axis.log()).containsExactly("beginTrial", "endTrial");
    }

    @Test
    void axisThatCannotBeginBlocksTheTrial() {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.failBegin(new AxisNotReadyException("axis X is not armed"));
        TrialOutcome outcome = bench.run(ScriptBench.trial("  axis.enable();"));

        assertThat(outcome.verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(outcome.reason()).isEqualTo("axis X is not armed");
        assertThat(bench.axis.log()).containsExactly("beginTrial");
    }

    @Test
    void axisThatNobodySawStandIsAnErrorWhateverTheChecksSaid() {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.neverStandsStill();
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  const out = axis.moveBy(1, "rev");
                  t.check("Change", out.travel(), nominal(1, "rev").plusMinus(1, "deg"));"""));

        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains("nobody saw axis X stand still");
        RunEvent.AxisStopped stopped = bench.events(RunEvent.AxisStopped.class).get(0);
        assertThat(stopped.standstill()).isFalse();
        assertThat(stopped.seconds()).isCloseTo(0.12, Offset.offset(1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "  while (true) {}",
                "  try { while (true) {} } finally { while (true) {} }",
                "  for (;;) { try { for (;;) {} } catch (e) {} }",
                "  return (async () => { await 1; for (;;) {} })();",
                "  const f = () => Promise.resolve().then(f); return f();",
                "  [2, 1].sort(() => { for (;;) {} });",
                "  for (;;) { try { axis.position(\"rev\"); } catch (e) {} }",
            })
    void busyLoopEndsAtTheLimitWithItsPlace(String body) {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("limit: [300, \"ms\"]", body));

        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains("longer than its limit of 0.3 s");
        assertThat(bench.axis.log())
                .anyMatch(line -> line.startsWith("safeStop"))
                .endsWith("endTrial");
        assertThat(bench.broken().place().orElseThrow().line()).isBetween(2, 3);
        assertThat(Thread.currentThread().isInterrupted()).isFalse();
    }

    @Test
    void busyLoopTellsLineAndColumn() {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial("limit: [300, \"ms\"]", "  let i = 0;\n  while (true) { i++; }"));
        ScriptPlace place = bench.broken().place().orElseThrow();
        assertThat(place.line()).isEqualTo(4);
        assertThat(place.text()).isEqualTo("while (true) { i++; }");
    }

    @Test
    void motionThatWaitsIsStoppedAtTheLimit() {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.waitInMotionUntilStopped();
        TrialOutcome outcome = bench.run(ScriptBench.trial(
                "limit: [300, \"ms\"]", "  try { axis.moveBy(1, \"rev\"); } finally { for (;;) {} }"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains("longer than its limit");
        assertThat(bench.broken().place().orElseThrow().line()).isEqualTo(3);
    }

    @Test
    void limitCountsOnTheClockOfTheAxis() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(
                ScriptBench.trial("limit: [30, \"s\"]", "  for (let i = 0; i < 1000; i++) { axis.dwell(5, \"s\"); }"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains("longer than its limit of 30 s");
        assertThat(bench.axis.log())
                .filteredOn(line -> line.startsWith("dwell"))
                .hasSizeBetween(5, 6);
    }

    @Test
    void stopReachesAMotionFromAnotherThread() throws InterruptedException {
        ScriptBench bench = new ScriptBench(folder);
        CountDownLatch moving = new CountDownLatch(1);
        bench.axis.waitInMotionUntilStopped();
        bench.axis.inMotion(moving::countDown);
        TrialRun run = bench.prepare(ScriptBench.trial("  axis.moveBy(1, \"rev\");"));
        Thread stopper = new Thread(() -> {
            try {
                if (moving.await(30, TimeUnit.SECONDS)) {
                    run.stop("operator");
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        stopper.start();
        TrialOutcome outcome = run.run();
        stopper.join();

        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).startsWith("stopped: operator");
        assertThat(bench.axis.log()).contains("safeStop stopped: operator", "endTrial");
    }

    @Test
    void stopBeforeTheStartKeepsTheScriptFromRunning() {
        ScriptBench bench = new ScriptBench(folder);
        TrialRun run = bench.prepare(ScriptBench.trial("  axis.enable();"));
        run.stop("operator");
        assertThat(run.run().verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(bench.axis.log()).containsExactly("beginTrial", "endTrial");
    }

    @Test
    void lostEvidenceEndsTheRunButStopsTheAxisFirst() {
        ScriptBench bench = new ScriptBench(folder);
        bench.sink = event -> {
            if (event instanceof RunEvent.StepDone) {
                throw new EvidenceLostException("journal.jsonl: disk full", new IOException("full"));
            }
            bench.events.add(event);
        };
        TrialRun run = bench.prepare(ScriptBench.trial("  try { axis.enable(); } catch (e) {}"));
        assertThatThrownBy(run::run).isInstanceOf(EvidenceLostException.class).hasMessage("journal.jsonl: disk full");
        assertThat(bench.axis.log()).containsExactly("beginTrial", "enable", "endTrial");
    }

    @Test
    void everyMeasuringWordMeasures() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  const out = axis.moveTo(2, "rev");
                  t.check("travel", out.travel(), nominal(2, "rev").plusMinus(1, "%"));
                  t.check("settling", out.settling({ window: [100, "count"] }), atMost(2, "s"));
                  t.check("settling 2", out.settling({ window: [100, "count"], from: "profile end" }), atMost(0.5, "s"));
                  t.check("overshoot", out.overshoot(), atMost(1, "deg"));
                  t.check("following", out.peakFollowingError(), atMost(1, "deg"));
                  t.check("torque", out.peakTorque(), between(10, 30, "%"));
                  t.check("rms", out.rmsTorque(), atMost(30, "%"));
                  const hold = axis.holdSpeed(-120, "rpm", { for: [5, "s"], acceleration: [10, "rev/s2"] });
                  t.check("mean", hold.meanSpeed(), nominal(-120, "rpm").plusMinus(1, "%"));
                  t.check("reported", hold.reportedSpeed(), nominal(-2, "rev/s").plusMinus(1, "%"));
                  t.check("ripple", hold.speedRipple(), atMost(2, "%"));
                  t.check("acceleration", hold.acceleration(), atLeast(1, "rev/s2"));
                  t.check("deceleration", hold.deceleration(), atLeast(1, "rev/s2"));
                  t.check("stopping time", hold.stoppingTime({ window: [100, "count"] }), atMost(1, "s"));
                  t.check("stopping distance", hold.stoppingDistance(), atMost(1, "rev"));
                  t.check("speed drift", hold.speedDrift(), between(-1, 1, "rpm"));
                  t.check("ripple frequency", hold.rippleFrequency(), atLeast(0.01, "Hz"));
                  t.check("ripple amplitude", hold.rippleAmplitude(), atMost(1, "rpm"));
                  t.check("lag", hold.steadyFollowingError(), between(-1, 1, "deg"));
                  t.check("gain", hold.positionGain(), atLeast(1, "1/s"));
                  const back = axis.holdSpeed(120, "rpm", { for: [5, "s"], acceleration: [10, "rev/s2"] });
                  t.check("friction", hold.frictionTorque(back), between(-50, 50, "%"));
                  t.check("load", back.loadTorque(hold), between(-50, 50, "%"));
                  const rest = axis.dwell(1, "s");
                  t.check("drift", rest.drift(), atMost(1, "deg"));
                  t.check("rest", out.restPosition(), nominal(2, "rev").plusMinus(1, "deg"));
                  t.check("at least", out.travel(), atLeast(1, "rev"));"""));
        assertThat(bench.events(RunEvent.CheckJudged.class))
                .extracting(check -> check.name() + " " + check.judgement().verdict() + " "
                        + check.judgement().reason())
                .allMatch(line -> line.contains("PASS") || line.contains("INCONCLUSIVE"), "is judged, not failed")
                .hasSize(24);
        assertThat(bench.events(RunEvent.TraceTaken.class))
                .extracting(RunEvent.TraceTaken::name)
                .containsExactly("01-moveTo", "02-holdSpeed", "03-holdSpeed", "04-dwell");
        assertThat(outcome.verdict()).isIn(Verdict.PASS, Verdict.INCONCLUSIVE);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "axis.dwell(1, 's').acceleration() | acceleration() needs a time of steady speed",
                "axis.moveBy(1, 'rev').positionGain() | positionGain() needs a time of steady speed",
                "hold.frictionTorque(axis.dwell(1, 's')) | the argument must be the result of a holdSpeed in the other",
                "hold.frictionTorque(hold) | the two speeds must be the same in opposite directions, but are 120 r/min",
                "t.coulombFriction(5) | coulombFriction: expected a list of holds at 3 different speeds or more, both ways each, but got 5",
                "t.viscousFriction([{ out: hold, back: hold }]) | expected a list of holds at 3 different speeds or more",
                "t.coulombFriction([{ out: 1, back: hold }, 2, 3]) | coulombFriction: option out must be the result of a holdSpeed, but is 1",
                "t.coulombFriction([{ out: hold }, 2, 3]) | coulombFriction: option back is missing",
                "t.coulombFriction([{ out: hold, back: hold }, 2, 3]) | the two speeds must be the same in opposite directions",
                "const o = axis.holdSpeed(-120, 'rpm', { for: [1, 's'] }); const p = { out: hold, back: o }; t.coulombFriction([p, p, p]) | 120 r/min is there twice",
                "hold.loadTorque(5) | the argument must be the result of a holdSpeed in the other direction, but is 5",
            })
    void wordsOfASpeedHoldRefuseWhatIsNone(String call, String reason) {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(
                ScriptBench.trial("const hold = axis.holdSpeed(120, 'rpm', { for: [1, 's'] });\n" + call + ";"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains(reason);
    }

    @Test
    void signalThatTheDriveDoesNotReportIsInconclusive() {
        ScriptBench bench = new ScriptBench(folder);
        bench.axis.withoutFollowingError();
        TrialOutcome outcome = bench.run(ScriptBench.trial(
                "  t.check(\"following\", axis.moveBy(1, \"rev\").peakFollowingError(), atMost(1, \"deg\"));"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("the drive of axis X does not report followingError");
    }

    @Test
    void computedValueCarriesUnitOriginAndUncertainty() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                  const out = axis.moveBy(1, "rev");
                  const back = axis.moveBy(-1, "rev");
                  const lost = out.travel().value("deg") + back.travel().value("deg");
                  const u = out.travel().uncertainty("deg") + back.travel().uncertainty("deg");
                  const m = t.computed(lost, "deg", { from: [out.travel(), back.travel()], uncertainty: [u, "deg"] });
                  t.check("Lost motion", m, between(-0.5, 0.5, "deg"));
                  const warm = t.computed(axis.read("temperature"), "degC", { from: ["temperature"], uncertainty: [1, "degC"] });
                  t.check("Temperature", warm, atMost(60, "degC"));
                  t.check("Name", t.computed(axis.name.length, "1", { from: [out.travel()], uncertainty: [0.1, "1"] }), atMost(3, "1"));
                  t.note(`${out.travel()} ${atMost(3, "mm")} ${axis} ${axis.position("deg")}`);"""));
        assertThat(outcome.reason()).isEmpty();
        assertThat(outcome.verdict()).isEqualTo(Verdict.PASS);
        RunEvent.CheckJudged check = bench.events(RunEvent.CheckJudged.class).get(0);
        assertThat(check.judgement().measured().definition()).matches("computed by the script from (.*), \\1");
        assertThat(check.judgement().measured().standardUncertainty()).isPositive();
        assertThat(check.trace()).isEqualTo(Optional.empty());
        List<RunEvent.StepDone> steps = bench.events(RunEvent.StepDone.class);
        assertThat(steps.get(steps.size() - 1).text()).isEqualTo("Note: 1.0000000 rev at most 3 mm X 0");
    }

    /** A forgotten await: the function goes on when the trial has nothing more to wait for. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "(async () => { await null; axis.moveBy(1, 'rev'); })();",
                "const later = async () => { await null; await null; axis.moveBy(1, 'rev'); }; later();",
                "Promise.resolve().then(() => axis.moveBy(1, 'rev'));",
                "Promise.resolve().then(() => { try { axis.moveBy(1, 'rev'); } catch (e) {} });",
            })
    void wordAfterTheEndOfTheTrialIsRefused(String forgotten) {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(
                ScriptBench.trial("t.check('Rest', axis.dwell(1, 's').drift(), atMost(1, 'deg'));\n" + forgotten));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).startsWith("a word was used after the trial function had ended");
        assertThat(bench.broken().place().orElseThrow().line()).isEqualTo(4);
        assertThat(bench.axis.log()).noneMatch(line -> line.startsWith("moveBy"));
    }

    @Test
    void wordAfterTheEndOfAnAsyncTrialIsRefused() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run("""
                import { trial } from "axtrial";
                trial("A trial", { id: "T-1" }, async (axis, t) => {
                  const later = async () => { for (let i = 0; i < 20; i++) { await null; } axis.moveBy(1, "rev"); };
                  later();
                  await null;
                });
                """);
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).startsWith("a word was used after the trial function had ended");
        assertThat(bench.axis.log()).noneMatch(line -> line.startsWith("moveBy"));
    }

    @Test
    void rejectionOfAnAsyncTrialTellsWhereItCameFrom() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run("""
                import { trial } from "axtrial";
                trial("A trial", { id: "T-1" }, async (axis, t) => {
                  await null;
                  throw new Error("gave up");
                });
                """);
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).isEqualTo("the script stopped with Error: gave up [t.js:4:9]");
    }

    @Test
    void awaitedAsyncTrialMayUseEveryWord() {
        TrialOutcome outcome = new ScriptBench(folder).run("""
                import { trial, atMost } from "axtrial";
                trial("A trial", { id: "T-1" }, async (axis, t) => {
                  const later = async () => { await null; return axis.dwell(1, "s"); };
                  t.check("Rest", (await later()).drift(), atMost(1, "deg"));
                });
                """);
        assertThat(outcome.reason()).isEmpty();
        assertThat(outcome.verdict()).isEqualTo(Verdict.PASS);
    }

    /** The limit that docs/scripts.md tells: what waits for ever does nothing, and nothing tells of it. */
    @Test
    void forgottenPromiseThatNeverSettlesIsNotSeen() {
        TrialOutcome outcome = new ScriptBench(folder).run(ScriptBench.trial("""
                  (async () => { await new Promise(() => {}); axis.moveBy(1, "rev"); })();
                  t.check("Rest", axis.dwell(1, "s").drift(), atMost(1, "deg"));"""));
        assertThat(outcome.verdict()).isEqualTo(Verdict.PASS);
    }
}
