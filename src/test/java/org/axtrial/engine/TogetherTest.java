package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.report.HtmlReport;
import org.axtrial.script.Readings;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Trials that work several axes at once. */
@Timeout(120)
class TogetherTest {

    /** The words of joint motion, for {@link RehearsalTest} to count as well. */
    static final String TOGETHER_WORDS = """
            import { trial, nominal, atMost } from "axtrial";
            trial("At once", { id: "W-6", axes: "INFEED", with: ["LIFT"] }, (axis, t) => {
              t.enableTogether();
              const out = t.moveTogether({ INFEED: { by: [30, "mm"], speed: [60, "mm/s"] }, LIFT: { by: [5, "mm"] } });
              t.check("Travel of INFEED", out.INFEED.travel(), nominal(30, "mm").plusMinus(0.05, "mm"));
              t.check("Travel of LIFT", out.LIFT.travel(), nominal(5, "mm").plusMinus(0.05, "mm"));
              const back = t.moveTogether({ INFEED: { by: [-30, "mm"] } });
              t.check("Back", back.INFEED.travel(), nominal(-30, "mm").plusMinus(0.05, "mm"));
              t.check("Skew", t.skew(out.INFEED, out.LIFT), atMost(40, "mm"));
              const poses = [1, 2, 3].map(() => ({ INFEED: out.INFEED.restPosition(), LIFT: out.LIFT.restPosition() }));
              t.check("RP", t.poseRepeatability(poses), atMost(0.1, "mm"));
              t.note(`${t.poseAccuracy(poses, { INFEED: [0, "mm"], LIFT: [0, "mm"] })} away from zero`);
              t.hold("Look at both");
              axis.position("mm");
            });
            """;

    @TempDir
    private Path folder;

    private Path siteFile;

    @BeforeEach
    void site() throws IOException {
        for (String name : List.of("demo/site.yaml", "drives/type-c.yaml", "drives/type-d.yaml")) {
            Path target = folder.resolve(name);
            Files.createDirectories(target.getParent());
            Files.copy(Path.of("test-scripts").resolve(name), target);
        }
        siteFile = folder.resolve("demo/site.yaml");
    }

    private RunRecord run(How how, String... scripts) throws Exception {
        List<Path> files = new ArrayList<>();
        for (String script : scripts) {
            files.add(Files.writeString(siteFile.resolveSibling("t" + files.size() + ".js"), script));
        }
        Site site = SiteFile.load(siteFile);
        try (SiteSession session = SiteSession.open(
                site,
                how,
                SiteSession.scripts(site, files),
                Files.createTempDirectory(folder, "reports"),
                "",
                Readings.NONE,
                Optional.empty())) {
            session.axes().forEach(axis -> axis.arm());
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            RunRecord record = session.pack().finish();
            html = new String(HtmlReport.bytes(session.pack().folder(), record), StandardCharsets.UTF_8);
            return record;
        }
    }

    private String html = "";

    private TrialRecord rehearse(String body) throws Exception {
        return run(
                        How.REHEARSAL,
                        "import { trial, nominal, atMost } from \"axtrial\";\n"
                                + "trial(\"T\", { id: \"T-1\", axes: [\"INFEED\"], with: [\"LIFT\"] }, (axis, t) => {\n"
                                + body
                                + "\n});\n")
                .trials()
                .get(0);
    }

    @Test
    void bothAreMovedMeasuredStoppedAndReported() throws Exception {
        TrialRecord trial = run(How.REHEARSAL, TOGETHER_WORDS).trials().get(0);

        TrialRecord.Attempt attempt = trial.attempts().get(0);
        assertThat(trial.verdict()).as(attempt.reason()).isEqualTo(Verdict.PASS);
        assertThat(trial.with()).containsExactly("LIFT");
        assertThat(attempt.traces())
                .extracting(TraceRecord::title)
                .containsExactly("Move INFEED by 30 mm at 60 mm/s", "Move LIFT by 5 mm", "Move INFEED by −30 mm");
        assertThat(attempt.stops()).extracting(TrialRecord.Stop::axis).containsExactly("INFEED", "LIFT");
        assertThat(attempt.stops()).allMatch(TrialRecord.Stop::ordinaryEnd);
        assertThat(html).contains("moves at once with LIFT");
    }

    @Test
    void twoRehearsalsAreEqual() throws Exception {
        assertThat(run(How.REHEARSAL, TOGETHER_WORDS).withoutStamps())
                .isEqualTo(run(How.REHEARSAL, TOGETHER_WORDS).withoutStamps());
    }

    @Test
    void overModbusTcpTheyDoTheSame() throws Exception {
        TrialRecord trial = run(How.SIMULATED, TOGETHER_WORDS.replace("t.hold(\"Look at both\");", ""))
                .trials()
                .get(0);

        assertThat(trial.verdict()).as(trial.reason()).isEqualTo(Verdict.PASS);
    }

    @Test
    void axesSideBySideWaitForEachOtherAroundIt() throws Exception {
        String alone = """
                import { trial, atMost } from "axtrial";
                trial("Alone", { id: "%s", axes: "all" }, (axis, t) => {
                  axis.enable();
                  t.check("Following", axis.moveBy(5, "deg").peakFollowingError(), atMost(1, "rev"));
                });
                """;
        String site = Files.readString(siteFile);
        assertThat(site).contains("parallel: true");

        RunRecord record = run(How.REHEARSAL, alone.formatted("A-1"), TOGETHER_WORDS, alone.formatted("A-2"));

        assertThat(record.trials()).hasSize(7);
        assertThat(record.verdict()).isEqualTo(Verdict.PASS);
        TrialRecord joint = record.trials().stream()
                .filter(trial -> trial.trial().equals("W-6"))
                .findFirst()
                .orElseThrow();
        assertThat(record.trials())
                .filteredOn(trial -> trial.axis().equals("LIFT"))
                .extracting(trial -> trial.attempts()
                        .get(0)
                        .startedAt()
                        .isAfter(joint.attempts().get(0).startedAt()))
                .containsExactly(false, true);
    }

    @Test
    void aFaultOfOneEndsTheTrialWithBothAtRest() throws Exception {
        TrialRecord trial = rehearse("""
                t.enableTogether();
                axis.strike({ kind: "drive trip", code: 8976 });
                t.moveTogether({ INFEED: { by: [30, "mm"], speed: [20, "mm/s"] }, LIFT: { by: [30, "mm"], speed: [20, "mm/s"] } });
                """);

        assertThat(trial.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(trial.reason()).contains("INFEED", "8976");
        assertThat(trial.attempts().get(0).stops())
                .extracting(TrialRecord.Stop::axis)
                .contains("INFEED", "LIFT");
        assertThat(trial.attempts().get(0).stops()).allMatch(TrialRecord.Stop::standstill);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "t.moveTogether({ INFEED: { by: [1, 'mm'] }, LFIT: { by: [1, 'mm'] } });|does not work axis \"LFIT\"; did you mean \"LIFT\"?",
                "t.moveTogether({ TURNTABLE: { by: [1, 'rev'] } });|does not work axis \"TURNTABLE\"",
                "t.moveTogether({});|no axis is named",
                "t.moveTogether([1, 'mm']);|the axes that move must be in braces",
                "t.moveTogether({ INFEED: [1, 'mm'] });|the INFEED must be in braces",
                "t.moveTogether({ INFEED: { by: [1, 'mm'], to: [2, 'mm'] } });|INFEED needs either by, a distance, or to, a target",
                "t.moveTogether({ INFEED: { speed: [2, 'mm/s'] } });|INFEED needs either by",
                "t.moveTogether({ INFEED: { by: [0, 'mm'] } });|the distance of INFEED is 0",
                "t.moveTogether({ INFEED: { by: [1, 's'] } });|the way of INFEED needs a unit of distance",
                "t.moveTogether({ INFEED: { by: 1 } });|must be a value and a unit in brackets",
                "t.moveTogether({ INFEED: { by: [1, 'mm'], sped: [1, 'mm/s'] } });|did you mean \"speed\"?",
                "t.enableTogether(); t.moveTogether({ INFEED: { by: [1, 'mm'] }, LIFT: { by: [5000, 'mm'] } });|LIFT: a move by 5000 mm",
                "t.skew(1, 2);|skew: expected the motion of an axis but got 1",
                "t.enableTogether(); const m = t.moveTogether({ INFEED: { by: [1, 'mm'] } }).INFEED; t.skew(m, m);|skew: both motions are of INFEED",
                "t.enableTogether(); axis.moveBy(1, 'mm');|moveBy: this word works INFEED alone, and LIFT would be under torque and out of sight",
                "t.enableTogether(); axis.dwell(1, 's');|dwell: this word works INFEED alone",
                "t.enableTogether(); t.moveTogether({ INFEED: { by: [1, 'mm'] } }).LIFT.travel();|the result of moveTogether has no word \"LIFT\"",
            })
    void mistakesAreToldAndNothingMoves(String body, String message) throws Exception {
        TrialRecord trial = rehearse(body);

        assertThat(trial.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(trial.reason()).contains(message).contains("t0.js:3:");
    }

    // Source: ISO 9283:1998, RP = l̄ + 3 S_l and AP (from memory): a square of 2 mm about 11, 21 has four distances of
    // √2 and no
    // spread, and its middle is √2 away from 10, 20.
    @Test
    void posesAreWorkedOutOfThePositionsOfAllAxes() throws Exception {
        TrialRecord trial = rehearse("""
                axis.position("mm");
                const at = (x, y) => ({
                  INFEED: t.computed(x, "mm", { from: ["position"], uncertainty: [0.001, "mm"] }),
                  LIFT: t.computed(y, "mm", { from: ["position"], uncertainty: [0.001, "mm"] }) });
                const square = [at(10, 20), at(12, 20), at(12, 22), at(10, 22)];
                t.check("RP", t.poseRepeatability(square), nominal(Math.SQRT2, "mm").plusMinus(1, "mm"));
                t.check("AP", t.poseAccuracy(square, { LIFT: [20, "mm"], INFEED: [0.01, "m"] }), nominal(Math.SQRT2, "mm").plusMinus(1, "mm"));
                """);

        List<CheckRecord> checks = trial.attempts().get(0).checks();
        assertThat(checks).hasSize(2);
        assertThat(checks)
                .allSatisfy(check ->
                        assertThat(check.measured().value().orElseThrow()).isCloseTo(Math.sqrt(2), within(1e-9)));
        assertThat(checks.get(1).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(checks.get(1).reason()).contains("pose accuracy needs an external instrument");
        assertThat(trial.attempts().get(0).steps())
                .extracting(TrialRecord.Step::text)
                .contains("Pose 1: INFEED at 10 mm, LIFT at 20 mm", "Pose 4: INFEED at 10 mm, LIFT at 22 mm");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "t.poseRepeatability(5);|poseRepeatability: expected a list of at least 2 poses but got 5",
                "t.poseRepeatability([{}]);|expected a list of at least 2 poses but got a list of 1",
                "t.poseRepeatability([{}, {}]);|pose 1 names no axis",
                "t.poseRepeatability([{ INFEED: 1 }, { INFEED: 2 }]);|each of the list must be a measurement such as out.restPosition(), but number 1 is 1",
                "t.poseRepeatability([1, 2]);|the positions of pose 1 must be in braces",
                "t.poseRepeatability([{ INFEED: 1 }, { LIFT: 2 }]);|pose 2 names LIFT and the first one INFEED",
                "axis.position('mm'); const x = () => t.computed(1, 'mm', { from: ['position'], uncertainty: [1, 'mm'] }); t.poseAccuracy([{ INFEED: x() }, { INFEED: x() }], { LIFT: [1, 'mm'] });|the commanded pose names LIFT and the attained ones INFEED",
                "axis.position('mm'); const x = () => t.computed(1, 'mm', { from: ['position'], uncertainty: [1, 'mm'] }); t.poseAccuracy([{ INFEED: x() }, { INFEED: x() }], { INFEED: [1, 'deg'] });|the commanded position of INFEED is in deg; give a length",
            })
    void mistakesWithPosesAreTold(String body, String message) throws Exception {
        TrialRecord trial = rehearse(body);

        assertThat(trial.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(trial.reason()).contains(message).contains("t0.js:3:");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "with: ['LIFT']|option axes must name that one",
                "axes: 'INFEED', with: ['INFEED']|option with names INFEED, which option axes names already",
                "axes: 'INFEED', with: ['LIFT', 'LIFT']|one of them twice",
                "axes: 'INFEED', with: ['LFIT']|is for axis \"LFIT\", which the site file does not have; did you mean \"LIFT\"?"
            })
    void aWrongDeclarationIsToldBeforeAnythingIsOpened(String options, String message) throws Exception {
        Path script = Files.writeString(
                siteFile.resolveSibling("t.js"),
                "import { trial } from \"axtrial\";\ntrial(\"T\", { id: \"T-1\", " + options + " }, () => {});\n");
        Site site = SiteFile.load(siteFile);

        assertThatThrownBy(() -> SiteSession.scripts(site, List.of(script)))
                .isInstanceOf(ScriptProblemsException.class)
                .hasMessageContaining(message);
    }

    @Test
    void aTrialOfOneAxisHasNoOthersToMove() throws Exception {
        TrialRecord trial = run(How.REHEARSAL, """
                import { trial } from "axtrial";
                trial("T", { id: "T-1", axes: "LIFT" }, (axis, t) => {
                  t.enableTogether();
                });
                """).trials().get(0);

        assertThat(trial.reason()).contains("enableTogether: this trial works one axis; name the others", "t0.js:3:");
    }

    @Test
    void anAxisThatMovesWithAChosenOneIsOnTrialToo() throws Exception {
        Path script = Files.writeString(siteFile.resolveSibling("t.js"), TOGETHER_WORDS);
        Site site = SiteFile.load(siteFile);
        List<String> axes = List.of("TURNTABLE", "INFEED", "LIFT");

        SiteSession.Scripts chosen = SiteSession.scripts(site, List.of(script))
                .chosen(new TrialChoice(List.of(), List.of("INFEED"), List.of(), List.of()), axes);

        assertThat(chosen.onTrial(axes)).containsExactly("INFEED", "LIFT");
    }
}
