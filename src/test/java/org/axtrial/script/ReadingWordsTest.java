package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.axis.EnvelopeTrippedException;
import org.axtrial.evidence.RunEvent;
import org.axtrial.measure.Instrument;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Timeout(60)
class ReadingWordsTest {

    private static final LocalDate DAY = LocalDate.of(2026, 6, 1);

    private static final Instrument AUTOCOLLIMATOR = new Instrument(
            "ANG-1",
            "autocollimator (invented)",
            "0417",
            "K-118",
            LocalDate.of(2026, 3, 2),
            LocalDate.of(2026, 6, 1),
            Unit.ARC_SECOND,
            0.1,
            0.4,
            2,
            OptionalDouble.empty());

    private static final String READ =
            "const m = t.reading('Angle at target 1', { instrument: 'ANG-1', unit: 'arcsec' });\n";

    @TempDir
    Path folder;

    private final List<Readings.Request> asked = new ArrayList<>();

    private ReadingSetup setup(LocalDate day, Readings readings) {
        return new ReadingSetup(List.of(AUTOCOLLIMATOR), day, request -> {
            asked.add(request);
            return readings.ask(request);
        });
    }

    private static Readings always(String value) {
        return request -> Readings.Pending.at(
                new Readings.Answer(Quantity.parse(value), OptionalDouble.empty(), "R. Example", "made up for a test"));
    }

    private ScriptBench bench(LocalDate day, Readings readings) {
        ScriptBench bench = new ScriptBench(folder);
        bench.readings = setup(day, readings);
        return bench;
    }

    // Sources: JCGM 100:2008, F.2.2.1 (q/√12) and 4.3.3 (U/k).
    @Test
    void aReadingIsAMeasurementOfTheInstrumentWithItsUncertainty() {
        ScriptBench bench = bench(DAY, always("12.3 arcsec"));
        TrialOutcome outcome = bench.run(
                ScriptBench.trial(READ + "t.check('Angle', m, nominal(12, 'arcsec').plusMinus(3, 'arcsec'));"));

        assertThat(outcome.reason()).isEmpty();
        assertThat(outcome.verdict()).isEqualTo(Verdict.PASS);
        Measurement measured =
                bench.events(RunEvent.CheckJudged.class).get(0).judgement().measured();
        assertThat(measured.source()).isEqualTo(Source.INSTRUMENT);
        assertThat(measured.value()).isEqualTo(12.3);
        assertThat(measured.resolution()).isEqualTo(0.1);
        assertThat(measured.standardUncertainty()).isCloseTo(Math.sqrt(0.1 * 0.1 / 12 + 0.2 * 0.2), within(1e-12));
        assertThat(measured.definition()).contains("ANG-1", "0417", "K-118");
        assertThat(bench.events(RunEvent.StepDone.class))
                .extracting(RunEvent.StepDone::text)
                .containsExactly(
                        "Reading \"Angle at target 1\" on ANG-1: 12.3″, read by R. Example, made up for a test");
        assertThat(asked.get(0).key().axis()).isEqualTo("X");
    }

    // The due day itself still counts; the day after it does not.
    @Test
    void aReadingOnAnOverdueInstrumentCannotPass() {
        String script = ScriptBench.trial(READ + "t.check('Angle', m, atMost(20, 'arcsec'));\n"
                + "t.check('Twice', t.computed(2 * m.value('arcsec'), 'arcsec', { from: [m], uncertainty: [1, 'arcsec'] }),"
                + " atMost(40, 'arcsec'));");
        ScriptBench late = bench(DAY.plusDays(1), always("12.3 arcsec"));
        TrialOutcome outcome = late.run(script);

        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("the calibration of instrument ANG-1 was due on 2026-06-01");
        assertThat(late.events(RunEvent.CheckJudged.class)).allSatisfy(check -> {
            assertThat(check.judgement().verdict()).isEqualTo(Verdict.INCONCLUSIVE);
            assertThat(check.judgement().margin()).isPresent();
        });
        assertThat(bench(DAY, always("12.3 arcsec")).run(script).verdict()).isEqualTo(Verdict.PASS);
        assertThat(bench(LocalDate.of(2026, 3, 1), always("12.3 arcsec"))
                        .run(script)
                        .reason())
                .contains("was calibrated on 2026-03-02, after the day of the test");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "t.reading('A', { instrument: 'ANG-2', unit: 'deg' }) | no instrument \"ANG-2\"; did you mean \"ANG-1\"?",
                "t.reading('A', { instrument: 'ANG-1', unit: 'mm' }) | reads in arcsec, and \"mm\" is a unit of another kind; use rev, deg",
                "t.reading('A', { instrument: 'ANG-1', unit: 'dge' }) | unknown unit \"dge\"; did you mean \"deg\"?",
                "t.reading('A', { instrument: 'ANG-1' }) | option unit is missing",
                "t.reading('A') | takes 2 arguments",
                "t.reading('', { instrument: 'ANG-1', unit: 'deg' }) | the name is empty",
                "for (const i of [1, 2]) t.reading('A', { instrument: 'ANG-1', unit: 'deg' }) | was read already in this trial",
            })
    void whatDoesNotFitIsAnError(String call, String reason) {
        TrialOutcome outcome = bench(DAY, always("1 deg")).run(ScriptBench.trial(call + ";"));

        assertThat(outcome.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(outcome.reason()).contains(reason);
    }

    @Test
    void aMissingReadingBlocksTheTrialAndIsNamed() {
        TrialOutcome outcome = bench(DAY, Readings.NONE).run(ScriptBench.trial("try { " + READ + "} catch (e) {}"));

        assertThat(outcome.verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(outcome.reason())
                .contains("the reading \"Angle at target 1\" on ANG-1 (trial T-1, axis X) is missing", "--answers");
    }

    @Test
    void anAnswerOfAnotherKindBlocksTheTrial() {
        TrialOutcome outcome = bench(DAY, always("12 mm")).run(ScriptBench.trial(READ));

        assertThat(outcome.verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(outcome.reason()).contains("was answered with 12 mm", "a unit of another kind");
    }

    /** Answers at the n-th look. */
    private static final class Slow implements Readings.Pending {
        private int looks;
        private final int needed;
        private boolean closed;

        Slow(int needed) {
            this.needed = needed;
        }

        @Override
        public Optional<Readings.Answer> look() {
            return ++looks < needed
                    ? Optional.empty()
                    : Optional.of(
                            new Readings.Answer(Quantity.parse("12 arcsec"), OptionalDouble.empty(), "", "typed"));
        }

        @Override
        public void close() {
            closed = true;
        }
    }

    @Test
    void whileAPersonIsWaitedForTheAxisIsWatchedAndTheLimitStandsStill() {
        // 50 looks with 200 ms between them are ten times the limit of the trial.
        Slow slow = new Slow(51);
        ScriptBench bench = bench(DAY, request -> slow);
        TrialOutcome outcome = bench.run(ScriptBench.trial(
                "limit: [1, 's']", READ + "axis.enable(); t.check('Angle', m, atMost(20, 'arcsec'));"));

        assertThat(outcome.verdict()).as(outcome.reason()).isEqualTo(Verdict.PASS);
        assertThat(bench.axis.log().stream().filter(entry -> entry.startsWith("dwell")))
                .hasSize(50);
        assertThat(slow.closed).isTrue();
    }

    @Test
    void aStopEndsTheWaiting() {
        Slow slow = new Slow(Integer.MAX_VALUE);
        ScriptBench bench = bench(DAY, request -> slow);
        TrialRun[] run = new TrialRun[1];
        bench.readings = setup(DAY, request -> new Readings.Pending() {
            @Override
            public Optional<Readings.Answer> look() {
                if (slow.looks == 3) {
                    run[0].stop("operator pressed stop");
                }
                return slow.look();
            }

            @Override
            public void close() {
                slow.close();
            }
        });
        run[0] = bench.prepare(ScriptBench.trial("axis.enable();" + READ));
        TrialOutcome outcome = run[0].run();

        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("operator pressed stop");
        assertThat(bench.axis.log()).contains("endTrial");
        assertThat(slow.closed).isTrue();
    }

    @Test
    void anAxisThatLeavesItsEnvelopeMeanwhileEndsTheTrial() {
        Slow slow = new Slow(Integer.MAX_VALUE);
        ScriptBench bench = bench(DAY, request -> slow);
        bench.axis.failNextMotion(new EnvelopeTrippedException("left the travel window"));
        TrialOutcome outcome = bench.run(ScriptBench.trial(READ));

        assertThat(outcome.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(outcome.reason()).contains("left the travel window");
        assertThat(slow.closed).isTrue();
    }

    private static final String SERIES = """
            const at = (target, i, way) => t.reading(`${way} ${target} ${i}`, { instrument: "ANG-1", unit: "arcsec" });
            const stops = [0, 1].map(target => ({ target: [target, "rev"],
              up: [1, 2].map(i => at(target, i, "up")), down: [1, 2].map(i => at(target, i, "down")) }));
            const p = t.positioning(stops);
            t.check("A", p.accuracy(), atMost(1, "deg"));
            t.check("E", p.systematicError(), atMost(1, "deg"));
            t.check("M", p.meanError(), atMost(1, "deg"));
            t.check("R", p.repeatability(), atMost(1, "deg"));
            t.check("B", p.reversalError(), atMost(1, "deg"));
            """;

    private static Readings atTarget() {
        return request -> Readings.Pending.at(new Readings.Answer(
                new Quantity(request.name().contains(" 1 ") ? 1_296_002 : 1, Unit.ARC_SECOND),
                OptionalDouble.empty(),
                "",
                "made up"));
    }

    private static final String SCALE = """
            const p = [0, 1, 2, 3].map(r => ({ commanded: [r, "rev"],
              measured: t.reading(`at ${r}`, { instrument: "ANG-1", unit: "arcsec" }) }));
            t.check("scale", t.scale(p), nominal(1, "1").plusMinus(1, "%"));
            """;

    @Test
    void aScaleIsTheSlopeOfReadingsWithItsScatterAndTheCertificate() {
        double[] readings = {5 + 1, 1_296_005 - 1, 2 * 1_296_000 + 5 - 1, 3 * 1_296_000 + 5 + 1};
        ScriptBench bench = bench(
                DAY,
                request -> Readings.Pending.at(new Readings.Answer(
                        new Quantity(readings[Integer.parseInt(request.name().substring(3))], Unit.ARC_SECOND),
                        OptionalDouble.empty(),
                        "",
                        "made up")));
        TrialOutcome outcome = bench.run(ScriptBench.trial(SCALE));

        assertThat(outcome.verdict()).as(outcome.reason()).isEqualTo(Verdict.PASS);
        Measurement scale =
                bench.events(RunEvent.CheckJudged.class).get(0).judgement().measured();
        assertThat(scale.source()).isEqualTo(Source.INSTRUMENT);
        // Residuals 1, −1, −1, 1 about a line of slope 1 (exact by hand): s = √(4/2), s_b = s/√S_xx, S_xx = 5 rev²
        // (textbook regression, from memory); resolution q/√12 over √S_xx; certificate 0.4/2 at both ends of 3 rev.
        double turn = 1_296_000;
        double scatter = Math.sqrt(2) / (Math.sqrt(5) * turn);
        double resolution = 0.1 / Math.sqrt(12) / (Math.sqrt(5) * turn);
        double certificate = 0.2 * Math.sqrt(2) / (3 * turn);
        assertThat(scale.value()).isCloseTo(1, within(1e-9));
        assertThat(scale.standardUncertainty())
                .isCloseTo(Math.hypot(scatter, Math.hypot(resolution, certificate)), within(1e-11));
    }

    @Test
    void accuracyFromAnInstrumentIsJudgedWithItsCertificateAtBothEnds() {
        ScriptBench bench = bench(DAY, atTarget());
        TrialOutcome outcome = bench.run(ScriptBench.trial(SERIES));

        assertThat(outcome.verdict()).as(outcome.reason()).isEqualTo(Verdict.PASS);
        Measurement accuracy =
                bench.events(RunEvent.CheckJudged.class).get(0).judgement().measured();
        assertThat(accuracy.source()).isEqualTo(Source.INSTRUMENT);
        // Deviations 1″ and 2″ without scatter. Sources: JCGM 100:2008, 4.3.9 (q/√6) and 4.3.3, U/k twice.
        assertThat(accuracy.value() * 3600).isCloseTo(1, within(1e-3));
        assertThat(accuracy.standardUncertainty() * 3600)
                .isCloseTo(Math.sqrt(0.1 * 0.1 / 6 + 2 * 0.2 * 0.2), within(1e-3));
    }

    @Test
    void oneOverdueReadingIsEnoughForTheWholeSeries() {
        TrialOutcome outcome = bench(DAY.plusDays(1), atTarget()).run(ScriptBench.trial(SERIES));

        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("ANG-1 was due on");
    }

    @Test
    void accuracyNeedsAnInstrumentForEveryReadingAndRepeatabilityDoesNot() {
        ScriptBench bench = bench(DAY, atTarget());
        TrialOutcome outcome = bench.run(ScriptBench.trial(
                SERIES.replace("const p =", "stops[0].down[1] = axis.dwell(0.3, 's').restPosition();\nconst p =")));

        assertThat(outcome.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(outcome.reason()).contains("accuracy needs an external instrument");
        assertThat(bench.events(RunEvent.CheckJudged.class))
                .extracting(check -> check.judgement().verdict())
                .containsExactly(
                        Verdict.INCONCLUSIVE, Verdict.INCONCLUSIVE, Verdict.INCONCLUSIVE, Verdict.PASS, Verdict.PASS);
        assertThat(bench.events(RunEvent.CheckJudged.class)
                        .get(3)
                        .judgement()
                        .measured()
                        .source())
                .isEqualTo(Source.DRIVE);
    }
}
