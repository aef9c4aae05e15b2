package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Long moves wait for the proof of sense and scale, from the site file to the record. */
@Timeout(60)
class FirstMotionRunTest {

    private static final Path SOURCES = Path.of("test-scripts");

    private static final String FAR = """
            trial("Far", { id: "FAR-%1$d", axes: ["INFEED"] }, (axis, t) => {
              axis.enable();
              t.check("way", axis.moveBy(%2$d, "mm").travel(), nominal(%2$d, "mm").plusMinus(0.5, "mm"));
            });
            """;

    /** Passes if so many mm are wanted as it goes, which is 1. */
    private static final String SENSE = """
            trial("Near", { id: "SNS-%1$d", axes: ["INFEED"], proves: "sense and scale" }, (axis, t) => {
              axis.enable();
              const out = axis.moveBy(1, "mm", { speed: [5, "mm/s"] });
              t.check("way", out.travel(), nominal(%2$d, "mm").plusMinus(0.1, "mm"));
            });
            """;

    private static final String HELD = "firstMotion: { travel: 2 mm, speed: 5 mm/s }";

    @TempDir
    Path folder;

    private List<TrialRecord> run(String axisKey, boolean real, Retests retests, String... trials) throws Exception {
        return run(scripts -> scripts, axisKey, real, retests, trials);
    }

    private List<TrialRecord> run(
            UnaryOperator<SiteSession.Scripts> choice, String axisKey, boolean real, Retests retests, String... trials)
            throws Exception {
        for (String name : List.of("demo/site.yaml", "drives/type-c.yaml", "drives/type-d.yaml")) {
            Path target = folder.resolve(name);
            Files.createDirectories(target.getParent());
            Files.copy(SOURCES.resolve(name), target);
        }
        Path file = folder.resolve("demo/site.yaml");
        String text = Files.readString(file).replace("  - name: INFEED\n", "  - name: INFEED\n    " + axisKey + "\n");
        Files.writeString(file, real ? text.replace("target: simulated", "target: real") : text);
        Path script = folder.resolve("demo/first.js");
        Files.writeString(script, "import { trial, nominal } from \"axtrial\";\n" + String.join("", trials));
        Site site = SiteFile.load(file);
        SiteSession.Answering answering =
                new SiteSession.Answering(Readings.NONE, People.REHEARSED, retests, Optional.empty());
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                choice.apply(SiteSession.scripts(site, List.of(script))),
                folder.resolve("reports"),
                "nobody",
                answering)) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            RunRecord record = session.pack().finish();
            return record.trials();
        }
    }

    private static String far(int number) {
        return FAR.formatted(number, 20);
    }

    private static String sense(int number, int wanted) {
        return SENSE.formatted(number, wanted);
    }

    private static TrialRecord of(List<TrialRecord> trials, String id) {
        return trials.stream()
                .filter(trial -> trial.trial().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aLongMoveIsBlockedUntilTheProofHasPassedInThisRun() throws Exception {
        List<TrialRecord> trials = run(HELD, false, Retests.NONE, far(1), sense(1, 1), far(2));

        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(of(trials, "FAR-1").reason())
                .startsWith("INFEED: a move by 20 mm ")
                .contains(
                        "may go 2 mm at 5 mm/s at most. SNS-1 (first.js) must pass on INFEED first; nothing was sent");
        assertThat(of(trials, "SNS-1").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(trials, "SNS-1").deciding().orElseThrow().steps())
                .last()
                .satisfies(step -> assertThat(step.text())
                        .isEqualTo("Sense and scale are proven: from now on INFEED may move as its envelope says"));
        assertThat(of(trials, "FAR-2").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aProofThatFailsUnlocksNothing() throws Exception {
        List<TrialRecord> trials = run(HELD, false, Retests.NONE, sense(1, 3), far(1));

        assertThat(of(trials, "SNS-1").verdict()).isEqualTo(Verdict.FAIL);
        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.BLOCKED);
    }

    @Test
    void aLaterProofThatFailsLocksAgain() throws Exception {
        List<TrialRecord> trials = run(HELD, false, Retests.NONE, sense(1, 1), far(1), sense(2, 3), far(2));

        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(trials, "SNS-2").verdict()).isEqualTo(Verdict.FAIL);
        assertThat(of(trials, "FAR-2").verdict()).isEqualTo(Verdict.BLOCKED);
    }

    /** Each attempt goes on where the one before ended, so that the second one stands where it was to end. */
    @Test
    void aReTestThatPassesUnlocks() throws Exception {
        String second = sense(1, 2).replace("out.travel()", "out.restPosition()");
        Retests again = (outcome, stopped) ->
                outcome.key().attempt() == 1 ? Optional.of("it had stood elsewhere") : Optional.empty();
        List<TrialRecord> trials = run(HELD, false, again, second, far(1));

        assertThat(of(trials, "SNS-1").attempts())
                .extracting(TrialRecord.Attempt::verdict)
                .containsExactly(Verdict.FAIL, Verdict.PASS);
        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aRealSiteIsHeldWithCareEvenIfItsFileSaysNothing() throws Exception {
        List<TrialRecord> trials = run("# nothing", true, Retests.NONE, far(1));

        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(of(trials, "FAR-1").reason())
                .contains("No trial of this run proves that for INFEED: add one that declares proves");
    }

    /** A proof that stands in the scripts and was not chosen proves nothing in this run, so it is not named either. */
    @Test
    void aProofThatWasNotChosenIsNotNamed() throws Exception {
        String far = far(1).replace("axes: [\"INFEED\"]", "axes: [\"INFEED\"], tags: [\"far\"]");
        TrialChoice tagged = new TrialChoice(List.of(), List.of(), List.of("far"), List.of());
        List<TrialRecord> trials =
                run(scripts -> scripts.chosen(tagged, List.of("INFEED")), HELD, false, Retests.NONE, sense(1, 1), far);

        assertThat(trials).hasSize(1);
        assertThat(of(trials, "FAR-1").reason()).contains("No trial of this run proves that for INFEED");
    }

    @Test
    void aSimulatedSiteIsNotHeldUnlessItsFileSaysSo() throws Exception {
        List<TrialRecord> trials = run("# free", false, Retests.NONE, far(1));

        assertThat(of(trials, "FAR-1").verdict()).isEqualTo(Verdict.PASS);
    }
}
