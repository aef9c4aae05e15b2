package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.ParameterChange;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Instrument;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.script.Readings;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The words of scripts on the axes of the demonstration, from the script down to the registers and up to the record. */
@Timeout(120)
class RehearsalTest {

    private static final Path SOURCES = Path.of("test-scripts");

    private static final String EVERY_WORD = """
            import { trial, nominal, atMost, atLeast, between } from "axtrial";
            trial("Every word", { id: "W-1", axes: ["TURNTABLE", "LIFT"], clause: "1", limit: [5, "min"],
                limits: { settling: [1.5, "s"] } }, (axis, t) => {
              t.step("Move of " + axis.name);
              axis.enable();
              const start = axis.position("rev");
              const out = axis.moveBy(1, "rev", { speed: [60, "rpm"], acceleration: [4, "rev/s2"], settle: [300, "ms"] });
              t.check("travel", out.travel(), nominal(1, "rev").plusMinus(0.5, "deg"));
              t.check("settling", out.settling({ window: [0.2, "deg"] }), atMost(t.limit("settling")));
              t.note(`within ${t.limit("settling").in("ms")} ms`);
              t.check("settling after profile", out.settling({ window: [0.2, "deg"], from: "profile end" }), atMost(200, "ms"));
              t.check("overshoot", out.overshoot(), atMost(1, "deg"));
              t.check("following", out.peakFollowingError(), between(1, 10, "deg"));
              t.check("peak torque", out.peakTorque(), between(0.5, 150, "%"));
              t.check("rms torque", out.rmsTorque(), between(0.1, 100, "%"));
              t.check("rest position", out.restPosition(), nominal(start + 1, "rev").plusMinus(0.5, "deg"));
              const hold = axis.holdSpeed(-60, "rpm", { for: [800, "ms"], acceleration: [4, "rev/s2"] });
              t.check("mean speed", hold.meanSpeed(), nominal(-60, "rpm").plusMinus(1, "%"));
              t.check("ripple", hold.speedRipple(), atMost(5, "%"));
              t.check("reported speed", hold.reportedSpeed(), nominal(-60, "rpm").plusMinus(1, "%"));
              const back = axis.holdSpeed(60, "rpm", { for: [800, "ms"], acceleration: [4, "rev/s2"] });
              t.check("acceleration", hold.acceleration(), nominal(4, "rev/s2").plusMinus(10, "%"));
              t.check("deceleration", hold.deceleration(), nominal(4, "rev/s2").plusMinus(10, "%"));
              t.check("stopping time", hold.stoppingTime({ window: [2, "deg"] }), nominal(0.21, "s").plusMinus(10, "ms"));
              t.check("stopping distance", hold.stoppingDistance(), nominal(0.1375, "rev").plusMinus(0.002, "rev"));
              t.check("speed drift", hold.speedDrift(), between(-0.5, 0.5, "rpm"));
              t.check("ripple frequency", back.rippleFrequency(), between(0, 200, "Hz"));
              t.check("ripple amplitude", hold.rippleAmplitude(), atMost(1, "rpm"));
              t.check("lag", hold.steadyFollowingError(), nominal(-4.5, "deg").plusMinus(2, "%"));
              t.check("position gain", hold.positionGain(), nominal(80, "1/s").plusMinus(2, "%"));
              t.check("friction", hold.frictionTorque(back), between(2, 11, "%"));
              t.check("load", hold.loadTorque(back), between(-1, 9, "%"));
              const both = rpm => [1, -1].map(sign => axis.holdSpeed(sign * rpm, "rpm", { for: [800, "ms"], acceleration: [4, "rev/s2"] }));
              const speeds = [20, 40].map(both).concat([[back, hold]]).map(([out, back]) => ({ out, back }));
              t.check("dry friction", t.coulombFriction(speeds), between(-20, 20, "%"));
              t.check("viscous friction", t.viscousFriction(speeds), between(-20, 20, "%"));
              const home = axis.moveTo(0.25, "rev");
              t.check("moved", home.travel(), between(-1, 1, "rev"));
              const rest = axis.dwell(300, "ms");
              t.check("drift", rest.drift(), nominal(0, "deg").plusMinus(0.3, "deg"));
              t.check("rest at target", rest.restPosition(), nominal(0.25, "rev").plusMinus(0.5, "deg"));
              const u = rest.restPosition().uncertainty("deg");
              const where = t.computed(rest.restPosition().value("deg"), "deg", { from: [rest.restPosition()], uncertainty: [u, "deg"] });
              t.check("computed", where, atLeast(89, "deg"));
              // The two types of drive tell their torque in different units, and read gives what the drive tells.
              const unit = axis.name === "LIFT" ? "permille" : "%";
              const torque = t.computed(axis.read("torque"), unit, { from: ["torque"], uncertainty: [1, "%"] });
              t.check("read", torque, between(-100, 100, "%"));
              const plan = axis.positioningPlan(0, 80, "deg", { overrun: [5, "deg"], period: [20, "deg"], seed: 7 });
              const stops = plan.targets("deg").map(target => ({ target: [target, "deg"], up: [], down: [] }));
              for (let cycle = 1; cycle <= Math.min(3, plan.cycles()); cycle++) {
                axis.moveTo(plan.turnBelow("deg"), "deg");
                for (const stop of stops) stop.up.push(axis.moveTo(...stop.target).restPosition());
                axis.moveTo(plan.turnAbove("deg"), "deg");
                for (const stop of [...stops].reverse()) stop.down.push(axis.moveTo(...stop.target).restPosition());
              }
              const test = t.positioning(stops);
              for (const value of [test.repeatability(), test.repeatabilityUp(), test.repeatabilityDown(),
                  test.reversalError()])
                t.check(`positioning: ${value}`, value, atMost(0.3, "deg"));
              t.check("mean reversal", test.meanReversalError(), between(-0.3, 0.3, "deg"));
              t.check("homing spread", t.homingSpread(stops[0].up), atMost(0.3, "deg"));
              t.check("homing range", t.homingRange(stops[0].up), atMost(0.3, "deg"));
              t.check("lost motion", t.lostMotion(stops[1].up, stops[1].down), between(-0.3, 0.3, "deg"));
              t.check("points outside", t.pointsOutside(stops[0].up, stops[0].up.slice(0, 1)), atMost(2, "1"));
              t.note("done");
              t.punch("Grease the screw", { class: "C" });
              axis.disable();
            });
            """;

    /** The words that need an instrument. */
    private static final String READING_WORDS = """
            import { trial, nominal, atMost } from "axtrial";
            trial("Words of readings", { id: "W-4", axes: "LIFT", limit: [5, "min"] }, (axis, t) => {
              axis.enable();
              const stops = [5, 15, 25].map(target => ({ target: [target, "mm"], up: [], down: [] }));
              const read = (stop, way, cycle) => {
                axis.moveTo(...stop.target);
                return t.reading(`${stop.target[0]} mm ${way} ${cycle}`, { instrument: "SCALE-1", unit: "mm" });
              };
              for (const cycle of [1, 2]) {
                axis.moveTo(0, "mm");
                for (const stop of stops) stop.up.push(read(stop, "up", cycle));
                axis.moveTo(30, "mm");
                for (const stop of [...stops].reverse()) stop.down.push(read(stop, "down", cycle));
              }
              const test = t.positioning(stops);
              for (const value of [test.accuracy(), test.accuracyUp(), test.accuracyDown(), test.systematicError(),
                  test.systematicErrorUp(), test.systematicErrorDown(), test.meanError()])
                t.check(`positioning: ${value}`, value, atMost(0.1, "mm"));
              const ups = stops.map(stop => ({ commanded: stop.target, measured: stop.up[0] }));
              t.check("scale", t.scale(ups), nominal(1, "1").plusMinus(5, "%"));
              t.check("first", stops[0].up[0], nominal(5, "mm").plusMinus(0.1, "mm"));
              axis.disable();
            });
            """;

    private static final String SCALE = """
            instruments:
              - id: SCALE-1
                type: linear scale (invented)
                serial: "7"
                certificate: K-119
                calibrated: 2001-01-01
                due: 9999-12-31
                resolution: 0.001 mm
                uncertainty: { expanded: 0.002 mm, k: 2 }
            """;

    /** The words that need a drive with homing and parameters. */
    private static final String DRIVE_WORDS = """
            import { trial, nominal, atLeast, between } from "axtrial";
            trial("Words of the drive", { id: "W-2", axes: "LIFT" }, (axis, t) => {
              t.check("serial number", axis.parameter("serialNumber"), atLeast(1, "1"));
              axis.setParameter("homingMethod", 37, "1");
              axis.setParameter("followingErrorTime", 25, "ms", { keep: true });
              axis.enable();
              axis.moveBy(3, "mm");
              const ref = axis.home({ within: [5, "mm"], settle: [50, "ms"] });
              t.check("new zero", ref.newZero(), nominal(-3, "mm").plusMinus(0.02, "mm"));
              t.check("stood", ref.travel(), between(-0.01, 0.01, "mm"));
              axis.strike({ kind: "lost zero", counts: 4000 });
              t.check("lost zero", axis.home({ within: [5, "mm"] }).newZero(), nominal(-4 / 3, "mm").plusMinus(0.02, "mm"));
              axis.disable();
            });
            trial("Saves", { id: "W-3", axes: "LIFT" }, (axis, t) => {
              axis.saveParameters("storeParameters");
              t.check("kept", axis.parameter("followingErrorTime"), nominal(25, "ms").plusMinus(0.5, "ms"));
            });
            """;

    /** The words that need a person. */
    private static final String PERSON_WORDS = """
            import { trial, nominal, atMost, atLeast, between } from "axtrial";
            trial("Words of people", { id: "W-5", axes: "LIFT", limit: [2, "min"] }, (axis, t) => {
              t.hold("Guards are closed");
              t.witness("Inputs by hand");
              const inputs = () => axis.parameter("digitalInputs");
              t.check("none active", inputs(), nominal(0, "1").plusMinus(0.5, "1"));
              t.operate("Press the home switch and hold it", { rehearse: { kind: "switch pressed", input: "home" } });
              t.check("home active", inputs(), nominal(4, "1").plusMinus(0.5, "1"));
              t.operate("Let go of the home switch", { rehearse: { kind: "switch released", input: "home" } });
              t.check("none active again", inputs(), nominal(0, "1").plusMinus(0.5, "1"));
              axis.enable();
              const hold = axis.holdSpeed(60, "mm/min", { for: [20, "s"], operate: "Press the emergency stop now",
                rehearse: { kind: "drive trip", code: 8976 } });
              t.note(`stopped by ${hold.stoppedBy()}`);
              t.check("stopped", hold.stoppedAfter(), atMost(20, "s"));
              t.check("stopping time", hold.stoppingTime({ window: [0.01, "mm"] }), atMost(0.5, "s"));
              t.check("stopping distance", hold.stoppingDistance(), atMost(0.5, "mm"));
              const rest = axis.dwell(3, "s", { operate: "Release the emergency stop" });
              t.check("no motion", rest.drift(), between(-0.05, 0.05, "mm"));
              axis.resetFault();
              t.check("no motion after the reset", axis.dwell(1, "s").drift(), between(-0.05, 0.05, "mm"));
              axis.enable();
              const back = axis.moveBy(-1, "mm");
              t.check("moves again", back.travel(), nominal(-1, "mm").plusMinus(0.05, "mm"));
              axis.disable();
            });
            """;

    @TempDir
    Path folder;

    private Path siteFile() throws IOException {
        for (String name : List.of("demo/site.yaml", "drives/type-c.yaml", "drives/type-d.yaml")) {
            Path target = folder.resolve(name);
            Files.createDirectories(target.getParent());
            Files.copy(SOURCES.resolve(name), target);
        }
        return folder.resolve("demo/site.yaml");
    }

    private RunRecord rehearse(Path siteFile, String script) throws Exception {
        return rehearse(siteFile, script, Readings.NONE);
    }

    private RunRecord rehearse(Path siteFile, String script, Readings readings) throws Exception {
        Path file = siteFile.resolveSibling("words.js");
        Files.writeString(file, script);
        Site site = SiteFile.load(siteFile);
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                SiteSession.scripts(site, List.of(file)),
                Files.createTempDirectory(folder, "reports"),
                "",
                readings,
                Optional.empty())) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            return session.pack().finish();
        }
    }

    private static TrialRecord.Attempt only(RunRecord record) {
        assertThat(record.trials()).hasSize(1);
        return record.trials().get(0).deciding().orElseThrow();
    }

    private static String onTurntable(String body) {
        return "import { trial, atMost } from \"axtrial\";\n"
                + "trial(\"A trial\", { id: \"T-1\", axes: \"TURNTABLE\", limit: [1, \"s\"] }, (axis, t) => {\n" + body
                + "\n});\n";
    }

    @Test
    void everyWordMeasuresOnEveryKindOfAxis() throws Exception {
        RunRecord record = rehearse(siteFile(), EVERY_WORD);

        assertThat(record.trials()).extracting(TrialRecord::axis).containsExactly("TURNTABLE", "LIFT");
        for (TrialRecord trial : record.trials()) {
            assertThat(trial.reason()).as(trial.axis()).isEmpty();
            assertThat(trial.verdict()).isEqualTo(Verdict.PASS);
            List<CheckRecord> checks = trial.deciding().orElseThrow().checks();
            assertThat(checks).hasSize(38);
            assertThat(checks).allSatisfy(check -> {
                assertThat(check.measured().value().orElseThrow()).isFinite();
                assertThat(check.measured().standardUncertainty()).isFinite().isPositive();
            });
            CheckRecord.Measured travel = checks.get(0).measured();
            // Source: JCGM 100:2008, F.2.2.1: two quantised ends are the least that a travel can be uncertain by.
            assertThat(travel.standardUncertainty())
                    .isBetween(travel.resolution() / Math.sqrt(6) * (1 - 1e-9), 2 * travel.resolution());
            CheckRecord.Measured settling = checks.get(1).measured();
            // Samples every 5 ms. Source: JCGM 100:2008, 4.3.7: half of them over √3 is the least.
            assertThat(settling.standardUncertainty()).isBetween(0.9 * 0.0025 / Math.sqrt(3), 0.005);
            // Sources of the limits in the script: the simulated loop has a gain of 80 1/s and no feed-forward, so that
            // it lags
            // v/Kv = 4.5° at 1 rev/s; a stop takes v²/(2a) + v/Kv = 0.125 + 0.0125 rev, and is within w = 2° after v/a
            // − √(2w/a) + 1/Kv = 0.21 s.
            // A trapezoid over 1 rev at 1 rev/s and 4 rev/s² takes s/v + v/a = 1.25 s (kinematics).
            assertThat(settling.value().orElseThrow()).isBetween(1.2, 1.5);
        }
    }

    // Deviations made up so that each can be worked out by hand: 0.01 mm in positive direction at every target, 0.03 mm
    // in negative direction, no scatter. Formulas: ISO 230-2, as in docs/measurement.md. E = A = 0.02, M = 0, E↑ = A↑ =
    // 0.
    @Test
    void accuracyIsJudgedFromReadingsOfAnInstrument() throws Exception {
        Path site = siteFile();
        Files.writeString(site, SCALE + Files.readString(site));
        Readings readings = request -> {
            String name = request.name();
            double deviation = name.contains(" up") ? 0.01 : 0.03;
            return Readings.Pending.at(new Readings.Answer(
                    new Quantity(Double.parseDouble(name.substring(0, name.indexOf(' '))) + deviation, Unit.MILLIMETRE),
                    OptionalDouble.empty(),
                    "nobody",
                    "made up"));
        };
        RunRecord record = rehearse(site, READING_WORDS, readings);

        TrialRecord.Attempt attempt = only(record);
        assertThat(attempt.verdict()).as(attempt.reason()).isEqualTo(Verdict.PASS);
        double[] expected = {0.02, 0, 0, 0.02, 0, 0, 0};
        for (int i = 0; i < expected.length; i++) {
            CheckRecord.Measured measured = attempt.checks().get(i).measured();
            assertThat(measured.value().orElseThrow()).as(measured.name()).isCloseTo(expected[i], within(1e-12));
            assertThat(measured.source()).isEqualTo(Source.INSTRUMENT);
        }
        assertThat(record.setup().instruments())
                .singleElement()
                .satisfies(info -> assertThat(info.calibration()).isEqualTo(Instrument.Calibration.VALID));
    }

    // Source: the plant of the demonstration's lift: 0.13 N·m of Coulomb friction of rated 1.3 N·m is 10 %, 0.0003
    // N·m·s/rad at
    // 3 motor turns for each of the screw; gravity of 196 N on a screw of 10 mm behind a gear of 3 is 196 · 0.01/(2π ·
    // 3) N·m.
    @Test
    void frictionAndLoadAreThoseOfThePlant() throws Exception {
        RunRecord record = rehearse(siteFile(), EVERY_WORD);
        List<CheckRecord> checks =
                record.trials().get(1).deciding().orElseThrow().checks();
        double viscous = 0.0003 * 2 * Math.PI * 3 / 1.3 * 100;
        double gravity = 196 * 0.01 / (2 * Math.PI * 3) / 1.3 * 100;
        assertThat(value(checks, "friction")).isCloseTo(10 + viscous, within(0.2));
        assertThat(value(checks, "load")).isCloseTo(gravity, within(0.1));
    }

    private static double value(List<CheckRecord> checks, String name) {
        return checks.stream()
                .filter(check -> check.name().equals(name))
                .findFirst()
                .orElseThrow()
                .measured()
                .value()
                .orElseThrow();
    }

    @Test
    void everyWordOfTheDriveWorks() throws Exception {
        RunRecord record = rehearse(siteFile(), DRIVE_WORDS);

        for (TrialRecord trial : record.trials()) {
            assertThat(trial.verdict()).as(trial.reason()).isEqualTo(Verdict.PASS);
        }
        assertThat(only(record.trials().get(0)).parameters())
                .extracting(ParameterChange::name, ParameterChange::kept, ParameterChange::leftBehind)
                .containsExactly(tuple("homingMethod", false, false), tuple("followingErrorTime", true, false));
    }

    @Test
    void everyWordOfPeopleIsRehearsedAndSaysSo() throws Exception {
        TrialRecord.Attempt attempt = only(rehearse(siteFile(), PERSON_WORDS));

        assertThat(attempt.verdict()).as(attempt.reason()).isEqualTo(Verdict.PASS);
        assertThat(attempt.steps().stream().flatMap(step -> step.person().stream()))
                .hasSize(6)
                .allSatisfy(part -> {
                    assertThat(part.rehearsed()).isTrue();
                    assertThat(part.by()).isEmpty();
                })
                .extracting(PersonPart::outcome)
                .containsExactly(
                        PersonPart.Outcome.RELEASED,
                        PersonPart.Outcome.NOBODY_CAME,
                        PersonPart.Outcome.DONE,
                        PersonPart.Outcome.DONE,
                        PersonPart.Outcome.DONE,
                        PersonPart.Outcome.DONE);
        assertThat(attempt.steps())
                .extracting(TrialRecord.Step::text)
                .contains(
                        "Hold point \"Guards are closed\": released, person not named, answered by the rehearsal",
                        "Witness point \"Inputs by hand\": no witness came, and the work went on, answered by the"
                                + " rehearsal",
                        "Note: stopped by machine")
                .anySatisfy(text -> assertThat(text)
                        .startsWith("Hold 60 mm/min for 20 s, stopped by the machine after ")
                        .contains("the drive shows fault code 8976 (0x2310)"));
    }

    @Test
    void aStuckSwitchIsFoundByHand() throws Exception {
        TrialRecord.Attempt attempt = only(rehearse(siteFile(), """
                import { trial, nominal } from "axtrial";
                trial("Inputs", { id: "W-6", axes: "LIFT" }, (axis, t) => {
                  axis.strike({ kind: "stuck switch", input: "home", active: false });
                  t.operate("Press the home switch", { rehearse: { kind: "switch pressed", input: "home" } });
                  t.check("home", axis.parameter("digitalInputs"), nominal(4, "1").plusMinus(0.5, "1"));
                });
                """));

        assertThat(attempt.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.checks().get(0).measured().value()).hasValue(0);
    }

    // A stop of v²/(2a) after v = 20 mm/s; the fault reaction may be steeper than the ramp, never gentler than it.
    @Test
    void aDriveThatTripsUnderAPersonsHandIsMeasuredAndMustBeEnabledAnew() throws Exception {
        String body = """
                import { trial, atMost, between } from "axtrial";
                trial("Stop by hand", { id: "W-7", axes: "LIFT" }, (axis, t) => {
                  axis.enable();
                  const hold = axis.holdSpeed(20, "mm/s", { for: [1, "s"], operate: "Press the emergency stop",
                    rehearse: { kind: "drive trip", code: 8976, after: "100 ms" } });
                  t.check("time", hold.stoppingTime({ window: [0.05, "mm"] }), between(0.01, 0.5, "s"));
                  t.check("way", hold.stoppingDistance(), between(0.2, 5, "mm"));
                  t.check("stands", axis.dwell(1, "s").drift(), between(-0.05, 0.05, "mm"));
                  axis.moveBy(1, "mm");
                });
                """;
        TrialRecord.Attempt attempt = only(rehearse(siteFile(), body));

        assertThat(attempt.checks())
                .extracting(CheckRecord::verdict)
                .containsOnly(Verdict.PASS)
                .hasSize(3);
        assertThat(attempt.checks().get(0).measured().budget())
                .anySatisfy(line -> assertThat(line.name()).isEqualTo("beginning of the stop between two samples"));
        assertThat(attempt.verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(attempt.reason()).contains("is not enabled", "Call axis.enable() first");
    }

    @Test
    void aTripThatNobodyWasAskedForStillFails() throws Exception {
        TrialRecord.Attempt attempt = only(rehearse(
                siteFile(),
                onTurntable("axis.enable();\n  axis.strike({ kind: \"drive trip\", code: 8976, after: \"200 ms\" });\n"
                        + "  axis.holdSpeed(30, \"rpm\", { for: [500, \"ms\"] });")));

        assertThat(attempt.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.reason()).contains("0x2310");
    }

    @Test
    void aFaultThatIsNoneOrThatAnAxisIsMadeWithIsAnErrorWithItsPlace() throws Exception {
        Path site = siteFile();
        for (String[] mistake : new String[][] {
            {"{ kind: \"more friktion\", factor: 3 }", "did you mean \"more friction\""},
            {"{ kind: \"more friction\" }", "factor: missing"},
            {"{ kind: \"more friction\", factor: 3, angle: \"2 deg\" }", "has no angle"},
            {"{ kind: \"wrong sign\" }", "put it into machineFaults"},
            {"3", "must be in braces"}
        }) {
            TrialRecord.Attempt attempt = only(rehearse(site, onTurntable("axis.strike(" + mistake[0] + ");")));
            assertThat(attempt.verdict()).as(mistake[0]).isEqualTo(Verdict.ERROR);
            assertThat(attempt.reason()).as(mistake[0]).contains(mistake[1], "words.js:3:");
        }
    }

    private static TrialRecord.Attempt only(TrialRecord trial) {
        assertThat(trial.attempts()).hasSize(1);
        return trial.attempts().get(0);
    }

    /** Keeps the scripts above complete when a word is added. */
    @Test
    void everyDeclaredWordStandsInThatScript() throws IOException {
        String declared = Files.readString(SOURCES.resolve("axtrial.d.ts")).replaceAll("(?s)/\\*.*?\\*/", "");
        List<String> words = Stream.of(
                        Pattern.compile("export function (\\w+)").matcher(declared),
                        Pattern.compile("(?m)^ {8}(\\w+)\\(").matcher(declared))
                .flatMap(matcher -> matcher.results().map(found -> found.group(1)))
                .toList();
        assertThat(words).contains("trial", "moveBy", "restPosition", "uncertainty", "computed");
        assertThat(words)
                .allSatisfy(word -> assertThat(EVERY_WORD
                                + DRIVE_WORDS
                                + READING_WORDS
                                + PERSON_WORDS
                                + TogetherTest.TOGETHER_WORDS
                                + ProvokedWordsTest.PROVOKED_WORDS)
                        .contains(word + "("));
    }

    @Test
    void theSameScriptTwiceGivesTheSameRecord() throws Exception {
        Path site = siteFile();
        RunRecord first = rehearse(site, EVERY_WORD);
        RunRecord second = rehearse(site, EVERY_WORD);
        assertThat(second.withoutStamps()).isEqualTo(first.withoutStamps());
        // The samples too, to the bit: the traces of both runs have the same hashes.
        assertThat(second.trials().stream().flatMap(RehearsalTest::traceHashes))
                .isNotEmpty()
                .containsExactlyElementsOf(first.trials().stream()
                        .flatMap(RehearsalTest::traceHashes)
                        .toList());
    }

    private static Stream<String> traceHashes(TrialRecord trial) {
        return trial.deciding().orElseThrow().traces().stream().map(trace -> trace.file() + " " + trace.sha256());
    }

    @Test
    void anOrderBeyondTheEnvelopeIsRefusedWithThePlaceInTheScript() throws Exception {
        TrialRecord.Attempt attempt =
                only(rehearse(siteFile(), onTurntable("axis.enable();\n  axis.moveBy(100, \"rev\");")));

        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.broken()).hasSize(1);
        TrialRecord.Break broken = attempt.broken().get(0);
        assertThat(broken.message())
                .startsWith("TURNTABLE: a move by 100 rev would end at ")
                .endsWith("outside the travel window −9000° … 9000°; nothing was sent");
        assertThat(broken.place()).contains(new ScriptPlace("words.js", 4, 3, "axis.moveBy(100, \"rev\");"));
        assertThat(attempt.traces()).isEmpty();
        assertThat(attempt.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
    }

    @Test
    void aLoopWithoutEndIsStoppedAtItsLimitAndTheAxisStands() throws Exception {
        TrialRecord.Attempt attempt = only(
                rehearse(siteFile(), onTurntable("axis.enable();\n  axis.moveBy(10, \"deg\");\n  while (true) {}")));

        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.reason()).startsWith("the trial took longer than its limit of 1 s and was stopped");
        assertThat(attempt.broken().get(0).place().orElseThrow().line()).isEqualTo(5);
        assertThat(attempt.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
    }

    /** A drive with another electronic gear than the site file says runs faster by its counts than it was told. */
    @Test
    void aSwallowedTripOfTheEnvelopeStillFails() throws Exception {
        Path site = siteFile();
        String text = Files.readString(site);
        String load = "      load: { inertia: 0.05 kgm2";
        assertThat(text).containsOnlyOnce(load);
        Files.writeString(
                site,
                text.replace(
                        load, "      feedback: { electronicGear: { encoderCounts: 1, registerCounts: 2 } }\n" + load));

        TrialRecord.Attempt attempt = only(rehearse(
                site,
                onTurntable("axis.enable();\n  try { axis.holdSpeed(110, \"rpm\", { for: [500, \"ms\"] }); }"
                        + " catch (e) {}\n  try { axis.moveBy(1, \"deg\"); } catch (e) {}")));

        assertThat(attempt.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.reason())
                .startsWith("TURNTABLE ")
                .contains("of the envelope")
                .contains("words.js:4:9");
        assertThat(attempt.steps()).hasSize(1);
        assertThat(attempt.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
    }
}
