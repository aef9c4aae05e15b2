package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.RunEvent;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Timeout(60)
class SeriesWordsTest {

    /** Rest positions by word of the script, in degrees, so that their mean and spread are known. */
    private static final String HAND = """
            axis.position("deg");
            const at = (...degrees) => degrees.map(d => t.computed(d, "deg", { from: ["position"], uncertainty: [0.001, "deg"] }));
            """;

    @TempDir
    Path folder;

    private List<Judgement> judged(ScriptBench bench) {
        return bench.events(RunEvent.CheckJudged.class).stream()
                .map(RunEvent.CheckJudged::judgement)
                .toList();
    }

    @Test
    void aPositioningTestRunsByItsPlan() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial("""
                const plan = axis.positioningPlan(0, 0.9, "rev", { overrun: [0.02, "rev"], period: [0.1, "rev"], seed: 1 });
                const stops = plan.targets("rev").map(target => ({ target: [target, "rev"], up: [], down: [] }));
                for (let cycle = 1; cycle <= plan.cycles(); cycle++) {
                  axis.moveTo(plan.turnBelow("rev"), "rev");
                  for (const stop of stops) stop.up.push(axis.moveTo(...stop.target).restPosition());
                  axis.moveTo(plan.turnAbove("rev"), "rev");
                  for (const stop of [...stops].reverse()) stop.down.push(axis.moveTo(...stop.target).restPosition());
                }
                const test = t.positioning(stops);
                t.note(`${plan}, ${test}`);
                t.check("R", test.repeatability(), atMost(0.1, "deg"));
                t.check("B", test.reversalError(), atMost(0.1, "deg"));
                t.check("A", test.accuracy(), atMost(0.1, "deg"));"""));
        assertThat(judged(bench))
                .extracting(Judgement::verdict)
                .containsExactly(Verdict.PASS, Verdict.PASS, Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("accuracy needs an external instrument");
        assertThat(bench.events(RunEvent.StepDone.class))
                .extracting(RunEvent.StepDone::text)
                .contains("Note: a positioning plan of 8 targets and 5 cycles, a positioning test of 8 targets");
        assertThat(bench.axis.log().stream().filter(line -> line.startsWith("moveTo")))
                .hasSize(5 * (8 + 8 + 2));
        assertThat(judged(bench).get(0).measured().source()).isEqualTo(Source.DRIVE);
    }

    // Source: constructed, rows 1 and 4 of the positioning example: B 2 and −3; R 6 and 7; E = 6 − (−2) = 8.
    @Test
    void deviationsCountFromTheTarget() {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial(HAND + """
                const test = t.positioning([
                  { target: [200, "deg"], up: at(202, 202, 203, 204, 204), down: at(205, 205, 206, 207, 207) },
                  { target: [100, "deg"], up: at(99, 99, 100, 101, 101), down: at(97, 97, 98, 99, 99) }]);
                t.check("B", test.reversalError(), atMost(1000, "deg"));
                t.check("R", test.repeatability(), atMost(1000, "deg"));
                t.check("E", test.systematicError(), atMost(1000, "deg"));
                t.check("mean B", test.meanReversalError(), between(-1000, 1000, "deg"));"""));
        assertThat(judged(bench))
                .extracting(judgement -> judgement.measured().value())
                .usingComparatorForType((a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b), Double.class)
                .containsExactly(3.0, 7.0, 8.0, -0.5);
        // What the results were made of stands in the record, in the order of the targets and the unit of the axis.
        assertThat(bench.events(RunEvent.StepDone.class))
                .extracting(RunEvent.StepDone::text)
                .filteredOn(text -> text.startsWith("Target"))
                .hasSize(2)
                .first()
                .asString()
                .startsWith("Target 1 at 0.277777778 rev: mean ↑ 0 rev, mean ↓ −0.005556 rev, B 0.005556 rev");
    }

    // Constructed: s = 1 about 2, and means 3 and 6.
    @Test
    void homingAndLostMotion() {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial(HAND + """
                t.check("spread", t.homingSpread(at(1, 1, 2, 3, 3)), atMost(1000, "deg"));
                t.check("range", t.homingRange(at(1, 1, 2, 3, 3)), atMost(1000, "deg"));
                t.check("lost", t.lostMotion(at(2, 2, 3, 4, 4), at(5, 5, 6, 7, 7)), between(-1000, 1000, "deg"));"""));
        assertThat(judged(bench)).hasSize(3);
        assertThat(judged(bench).get(0).measured().value()).isCloseTo(4, within(1e-9));
        assertThat(judged(bench).get(1).measured().value()).isCloseTo(2, within(1e-9));
        assertThat(judged(bench).get(2).measured().value()).isCloseTo(-3, within(1e-9));
    }

    // Constructed: mean 11, mean moving range 2, limits 11 ± 6/1.128 = 5.681 and 16.319; 17 and 5 lie outside.
    @Test
    void pointsOutsideAreCountedAndNamed() {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial(HAND + """
                const well = at(10, 12, 10, 12);
                t.check("some", t.pointsOutside(well, at(11, 17, 16, 5)), atMost(2, "1"));
                t.check("none", t.pointsOutside(well, at(6, 16)), atMost(0, "1"));"""));
        assertThat(judged(bench))
                .extracting(judgement -> judgement.measured().value())
                .containsExactly(2.0, 0.0);
        assertThat(judged(bench))
                .extracting(judgement -> judgement.measured().standardUncertainty())
                .containsOnly(0.0);
        assertThat(bench.events(RunEvent.StepDone.class))
                .extracting(RunEvent.StepDone::text)
                .filteredOn(text -> text.startsWith("Value"))
                .hasSize(2)
                .satisfiesExactly(
                        first -> assertThat(first).startsWith("Value 2 of 4 lies outside the control limits"),
                        second -> assertThat(second).startsWith("Value 4 of 4 lies outside the control limits"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "t.pointsOutside(at(1), at(1)) | pointsOutside: expected a list of at least 2 measurements",
                "t.pointsOutside(at(1, 2), [5]) | pointsOutside: each of the list must be a measurement",
                "t.homingSpread(at(1)) | homingSpread: expected a list of at least 2 measurements such as out.restPosition() but got a list of 1",
                "t.homingRange([1, 2]) | homingRange: each of the list must be a measurement such as out.restPosition(), but number 1 is 1",
                "t.lostMotion(at(1, 2), 5) | lostMotion: expected a list of at least 2 measurements",
                "t.positioning([]) | positioning: expected a list of targets but got a list of 0",
                "t.positioning([{ target: [1, 'deg'], up: at(1) }]) | positioning: option down is missing",
                "t.positioning([{ target: [1, 's'], up: at(1), down: at(1) }]) | the target needs a unit of distance",
                "t.positioning([{ target: [1, 'deg'], up: at(1), down: at(1, 2) }]) | a target needs as many approaches",
                "t.scale(5) | scale: expected a list of at least 3 positions but got 5",
                "t.scale([1, 2].map(d => ({ commanded: [d, 'deg'], measured: at(d)[0] }))) | scale: expected a list of at least 3 positions but got a list of 2",
                "t.scale([1, 2, 3].map(d => ({ commanded: [d, 'deg'] }))) | scale: option measured is missing",
                "t.scale([1, 2, 3].map(d => ({ commanded: [d, 's'], measured: at(d)[0] }))) | the commanded position needs a unit of distance",
                "t.scale([1, 2, 3].map(d => ({ commanded: [d, 'deg'], measured: d }))) | scale: each of the list must be a measurement such as out.restPosition(), but number 1 is 1",
                "t.scale([1, 2, 3].map(d => ({ commanded: [7, 'deg'], measured: at(d)[0] }))) | scale: all commanded positions are the same",
                "axis.positioningPlan(0, 1, 'rev', { overrun: [1, 'rev'], seed: 1 }) | a travel longer than both overruns",
                "axis.positioningPlan(0, 1, 'rev', { overrun: [0.1, 'rev'] }) | positioningPlan: option seed is missing",
                "axis.positioningPlan(0, 1, 'rev', { overrun: [0.1, 'rev'], seed: 1.5 }) | option seed must be a whole number but is 1.5",
                "axis.positioningPlan(0, 1, 'rev', { overrun: [0.1, 'rev'], seed: 1 }).targets('s') | needs a unit of distance",
            })
    void whatDoesNotFitIsAnError(String call, String reason) {
        TrialOutcome outcome = new ScriptBench(folder).run(ScriptBench.trial(HAND + call + ";"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains(reason);
    }

    @Test
    void aScaleThatTheDriveReportsDecidesNothing() {
        ScriptBench bench = new ScriptBench(folder);
        TrialOutcome outcome = bench.run(ScriptBench.trial(HAND + """
                const p = [1, 2, 3].map(d => ({ commanded: [d, "deg"], measured: at(d)[0] }));
                t.check("scale", t.scale(p), nominal(1, "1").plusMinus(50, "%"));"""));
        assertThat(judged(bench)).extracting(Judgement::verdict).containsExactly(Verdict.INCONCLUSIVE);
        assertThat(judged(bench).get(0).measured().value()).isCloseTo(1, within(1e-9));
        assertThat(outcome.reason()).contains("a scale needs an external instrument");
    }

    @Test
    void aPositionThatIsMissingProvesNothing() {
        TrialOutcome outcome = new ScriptBench(folder)
                .run(ScriptBench.trial("const m = axis.dwell(0.02, 's').restPosition(); t.homingSpread([m, m]);"));
        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("rest position has no value");
    }
}
