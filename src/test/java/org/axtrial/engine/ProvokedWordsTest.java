package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
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

/** What is provoked must be seen where it comes, and its absence too. */
@Timeout(120)
class ProvokedWordsTest {

    /** The words of provoked motions and of the link, all of them. */
    static final String PROVOKED_WORDS = """
            axis.enable();
            const out = axis.moveUntilStopped(440, "mm", { by: "limit", speed: [60, "mm/s"] });
            t.check("stands at the switch", out.restPosition(), between(420, 425, "mm"));
            axis.moveTo(100, "mm", { speed: [200, "mm/s"] });
            t.check("once", axis.moveStartedTwice(10, "mm").travel(), nominal(...t.limit("way")).plusMinus(0.1, "mm"));
            const run = axis.holdSpeed(50, "mm/s", { for: [300, "ms"] });
            t.check("rise", run.riseTime(), between(10, 100, "ms"));
            t.check("overshoot", run.speedOvershoot(), atMost(20, "%"));
            const lost = axis.moveWithoutLink(200, "mm", { cut: "silence", after: [400, "ms"], lasts: [1, "s"] });
            t.check("time", lost.time(), atMost(1.1, "s"));
            t.check("distance", lost.distance(), between(1, 30, "mm"));
            t.check("torque", lost.enabled(), nominal(0, "1").plusMinus(0.5, "1"));
            axis.resetFault();
            axis.awaitRestart({ within: [1, "min"] });
            const times = axis.linkTimes({ reads: 100 });
            t.check("median", times.median(), between(0.5, 1.5, "ms"));
            t.check("p99", times.p99(), between(t.limit("least").in("ms"), 1.5, "ms"));
            t.check("longest", times.longest(), atMost(1.5, "ms"));
            t.check("errors", times.errors(), atMost(0, "1"));
            t.check("told", axis.deviceIdentification({ productCode: "TYPE-F", revision: "V1.4" }), atMost(0, "1"));
            const others = axis.deviceIdentification({ productCode: "TYPE-F", revision: "V1.3", modelName: "none" });
            t.check("told otherwise", others, between(1.5, 2.5, "1"));
            t.note(axis.parameterNames().join(" "));
            """;

    @TempDir
    Path folder;

    private TrialRecord.Attempt run(String body) throws Exception {
        Path scripts = folder.resolve("acceptance");
        Files.createDirectories(scripts.resolve("before-motion"));
        Files.createDirectories(folder.resolve("drives"));
        Files.copy(Path.of("test-scripts/drives/type-f.yaml"), folder.resolve("drives/type-f.yaml"));
        String site = Files.readString(Path.of("test-scripts/acceptance/site.yaml"));
        Path siteFile = scripts.resolve("site.yaml");
        Files.writeString(
                siteFile,
                site.substring(0, site.indexOf("  # Vertical, belt"))
                        .replaceAll("(?s)scripts:.*?instruments:", "instruments:"));
        Path script = scripts.resolve("words.js");
        Files.writeString(
                script,
                "import { trial, nominal, atMost, between } from \"axtrial\";\n"
                        + "trial(\"Words\", { id: \"W-1\", limits: { way: [10, \"mm\"], least: [0.5, \"ms\"] } }, (axis, t) => {\n"
                        + body + "\n});\n");
        Site read = SiteFile.load(siteFile);
        SiteSession.Answering nobody =
                new SiteSession.Answering(Readings.NONE, People.REHEARSED, Retests.NONE, Optional.empty());
        try (SiteSession session = SiteSession.open(
                read,
                How.REHEARSAL,
                SiteSession.scripts(read, List.of(script)),
                folder.resolve("reports"),
                "nobody",
                nobody)) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            RunRecord record = session.pack().finish();
            return record.trials().get(0).deciding().orElseThrow();
        }
    }

    @Test
    void everyWordSeesWhatIsProvoked() throws Exception {
        TrialRecord.Attempt attempt = run(PROVOKED_WORDS);

        assertThat(attempt.verdict()).as(attempt.reason()).isEqualTo(Verdict.PASS);
        assertThat(attempt.checks()).hasSize(13);
        assertThat(attempt.steps())
                .anySatisfy(
                        step -> assertThat(step.text()).contains("link lost (silence); seen again at rest", "FAULT"))
                .anySatisfy(step -> assertThat(step.text()).contains("productCode", "followingErrorTrip"));
    }

    @Test
    void anAxisThatArrivesFailsWhereALimitWasToStopIt() throws Exception {
        TrialRecord.Attempt attempt = run("axis.enable();\naxis.moveUntilStopped(10, \"mm\", { by: \"limit\" });");

        assertThat(attempt.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.reason())
                .startsWith("CARRIAGE: a move by 10 mm that a limit is to end went on to its target at ")
                .contains("nothing ended it");
        assertThat(attempt.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
    }

    @Test
    void aTripIsNoLimit() throws Exception {
        TrialRecord.Attempt attempt =
                run("axis.enable();\naxis.strike({ kind: \"drive trip\", code: 8976, after: \"300 ms\" });\n"
                        + "axis.moveUntilStopped(200, \"mm\", { by: \"limit\" });");

        assertThat(attempt.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.reason()).contains("was ended by the drive, which shows FAULT, fault code 8976 (0x2310)");
    }

    /** A drive that is told to do nothing about a lost link runs on: seen late, stopped then, and never accepted. */
    @Test
    void aDriveThatRunsOnWithoutALinkIsStoppedAndFails() throws Exception {
        TrialRecord.Attempt attempt = run("""
                axis.setParameter("abortConnectionOption", 0, "1");
                axis.enable();
                const lost = axis.moveWithoutLink(300, "mm", { cut: "close", after: [400, "ms"], lasts: [1, "s"] });
                t.check("time", lost.time(), atMost(0.5, "s"));""");

        assertThat(attempt.verdict()).as(attempt.reason()).isEqualTo(Verdict.FAIL);
        assertThat(attempt.steps())
                .anySatisfy(step -> assertThat(step.text()).contains("seen again still moving, and stopped"));
        assertThat(attempt.parameters()).isNotEmpty();
    }

    /** The start goes out twice, so the envelope must hold twice the way: 230 mm twice leads out of 440 mm. */
    @Test
    void aStartIsSentTwiceOnlyWhereTwiceTheWayIsAllowed() throws Exception {
        TrialRecord.Attempt attempt = run("axis.enable();\naxis.moveStartedTwice(230, \"mm\");");

        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.reason()).contains("would end at 460 mm").contains("nothing was sent");
    }

    @Test
    void aLinkIsNotLostAfterTheEndOfTheMove() throws Exception {
        TrialRecord.Attempt attempt = run("axis.enable();\n"
                + "axis.moveWithoutLink(10, \"mm\", { cut: \"silence\", after: [5, \"s\"], lasts: [1, \"s\"] });");

        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.reason()).contains("before the link was to be lost after 5 s");
    }
}
