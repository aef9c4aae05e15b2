package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.sim.WireFault;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(120)
class RunCommandTest {

    private static final int WRITE_BLOCK = 16;

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
    }

    @AfterEach
    void stop() {
        bench.close();
    }

    @Test
    void aGoodTrialPassesAndLeavesACompletePack() throws Exception {
        bench.script("""
                axis.enable();
                const out = axis.moveBy(0.5, "rev");
                t.check("Position change", out.travel(), nominal(0.5, "rev").plusMinus(0.5, "deg"));
                """);

        assertThat(bench.run()).isZero();

        assertThat(bench.pack()).isDirectoryContaining("glob:**/{record.json,journal.jsonl}");
        for (String file : new String[] {
            "record.json",
            "journal.jsonl",
            "report.html",
            "report.pdf",
            "junit.xml",
            "manifest.json",
            "site.yaml",
            "scripts/t.js",
            "drives/type-d.yaml"
        }) {
            assertThat(bench.pack().resolve(file)).exists();
        }
        assertThat(bench.pack().resolve("traces")).isNotEmptyDirectory();
        assertThat(Manifest.verify(bench.pack())).isEmpty();
        assertThat(bench.writes("relativeMove")).isEqualTo(1);
        assertThat(bench.stands()).isTrue();
        assertThat(bench.output).contains("REAL AXES", "Before any axis moves:", "PASS  (1 PASS)");
    }

    @Test
    void tenRevolutionsInAnEnvelopeOfTwoPutNothingOnTheWire() throws Exception {
        bench.script("axis.enable();\naxis.moveBy(10, \"rev\");");

        assertThat(bench.run()).isEqualTo(1);

        assertThat(bench.writes("relativeMove")).isZero();
        assertThat(bench.writes("profileSpeed")).isZero();
        assertThat(bench.drive.motionsStarted()).isZero();
        TrialRecord.Attempt attempt = bench.onlyAttempt();
        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.reason())
                .contains("TABLE: a move by 10 rev would end at 10 rev, outside the travel window")
                .contains("nothing was sent")
                .contains("t.js:4:");
    }

    @Test
    void aLostReplyToARelativeMoveIsOneFrameALookAStopAndInconclusive() throws Exception {
        // The move itself is the second block write of the trial that moves; the profile goes before it. Losing every
        // reply from there on would also lose the stop, so exactly the one reply is dropped.
        bench.script("""
                axis.enable();
                try { axis.moveBy(1, "rev"); } catch (lost) { t.note("caught by the script"); }
                try { axis.moveBy(1, "rev"); } catch (again) { t.note("caught again"); }
                """);
        dropTheReplyToTheMove();

        assertThat(bench.run()).isEqualTo(3);

        assertThat(bench.writes("relativeMove")).isEqualTo(1);
        assertThat(bench.drive.motionsStarted()).isEqualTo(1);
        assertThat(bench.stands()).isTrue();
        TrialRecord.Attempt attempt = bench.onlyAttempt();
        assertThat(attempt.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(attempt.reason())
                .contains("sent once, its reply was lost, and it was not repeated")
                .contains("The axis was stopped and stands at");
        assertThat(attempt.stops()).allMatch(TrialRecord.Stop::standstill);
    }

    private void dropTheReplyToTheMove() {
        bench.server.fault(new WireFault.DropReply(new WireFault.Strikes(WRITE_BLOCK, 1, 1)));
    }

    @Test
    void aBusyLoopEndsAsErrorWithItsPlaceAndTheAxisAtRest() throws Exception {
        bench.scriptText("""
                import { trial } from "axtrial";
                trial("Busy", { id: "T-1", axes: "all", limit: [1, "s"] }, (axis, t) => {
                  axis.enable();
                  while (true) {}
                });
                """);

        assertThat(bench.run()).isEqualTo(1);

        TrialRecord.Attempt attempt = bench.onlyAttempt();
        assertThat(attempt.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(attempt.reason()).contains("t.js:4:");
        assertThat(Duration.between(attempt.startedAt(), attempt.finishedAt().orElseThrow()))
                .as("from the start of a trial with a limit of one second to its end, the safe stop included")
                .isLessThan(Duration.ofSeconds(4));
        assertThat(bench.stands()).isTrue();
        assertThat(attempt.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
    }

    @Test
    void anAxisThatIsNotArmedIsNotMoved() throws Exception {
        bench.script("axis.enable();\naxis.moveBy(0.1, \"rev\");");

        int code = bench.command(
                "run", bench.site.toString(), "--reports", bench.reports().toString());

        assertThat(code).isEqualTo(2);
        assertThat(bench.errors).contains("must be armed in this run", "--arm TABLE", "Nothing has moved");
        assertThat(bench.drive.motionsStarted()).isZero();
        assertThat(bench.writes("command")).isZero();
        assertThat(bench.reports()).as("no pack is begun").doesNotExist();
    }

    @Test
    void aSlipInTheNameOfAnAxisIsAskedAgainAndArmsNothing() throws Exception {
        bench.script("axis.enable();\naxis.dwell(0.1, \"s\");");
        String[] run = {
            "run", bench.site.toString(), "--reports", bench.reports().toString()
        };

        bench.typing("tabel\n\n", run);

        assertThat(bench.output)
                .contains("Not taken: This run has no axis tabel; it has TABLE.", "Armed: none; trials that move");
        assertThat(bench.drive.motionsStarted()).isZero();
        assertThat(bench.record().trials().get(0).verdict()).isEqualTo(Verdict.BLOCKED);
    }

    @Test
    void aNameThatIsTypedRightTheSecondTimeArms() throws Exception {
        bench.script("axis.enable();\naxis.dwell(0.1, \"s\");");

        bench.typing(
                "TABEL\nTABLE\n",
                "run",
                bench.site.toString(),
                "--reports",
                bench.reports().toString());

        assertThat(bench.output).contains("Not taken: This run has no axis TABEL", "Armed: TABLE");
        assertThat(bench.onlyAttempt().broken()).isEmpty();
    }

    @Test
    void anUnknownAxisCannotBeArmed() throws Exception {
        bench.script("axis.enable();");

        int code = bench.command(
                "run",
                bench.site.toString(),
                "--arm",
                "TABEL",
                "--reports",
                bench.reports().toString());

        assertThat(code).isEqualTo(2);
        assertThat(bench.errors).contains("no axis TABEL; it has TABLE");
        assertThat(bench.reports()).as("no pack is begun").doesNotExist();
    }

    @Test
    void aLinkThatIsGoneBeforeTheRunIsToldAxisByAxis() throws Exception {
        bench.script("axis.enable();");
        bench.server.close();

        assertThat(bench.run()).isEqualTo(2);

        assertThat(bench.errors).contains("Not every axis could be opened (1 problem)", "TABLE: ");
    }

    @Test
    void aDriveThatFallsSilentWhileMovingIsReportedAsNotSeenStanding() throws Exception {
        bench.script("""
                axis.enable();
                axis.moveBy(1.5, "rev", { speed: [30, "rpm"] });
                """);
        bench.server.fault(new WireFault.DelayReply(3, Duration.ofMillis(1), 1));
        bench.server.fault(new WireFault.DropReply(new WireFault.Strikes(WRITE_BLOCK, 1, 1)));

        int code = bench.run();

        assertThat(code).isIn(1, 3);
        assertThat(bench.onlyAttempt().verdict()).isNotEqualTo(Verdict.PASS);
        assertThat(bench.stands()).isTrue();
    }

    @Test
    void scriptProblemsAreAllToldBeforeAnythingIsOpened() throws Exception {
        bench.scriptText(
                "import { trial } from \"axtrial\";\ntrial(\"A\", { id: \"T-1\", axes: [\"NOBODY\"] }, () => {});\n");
        Files.writeString(folder.resolve("u.js"), "import { trail } from \"axtrial\";\n");

        assertThat(bench.run()).isEqualTo(2);

        assertThat(bench.errors)
                .contains("The scripts cannot be run", "Nothing has moved")
                .contains("t.js:2", "NOBODY")
                .contains("u.js:1");
        assertThat(bench.reports()).doesNotExist();
    }

    @Test
    void siteProblemsAreAllTold() throws Exception {
        Files.writeString(
                bench.site,
                Files.readString(bench.site).replace("120 rpm", "120 furlongs").replace("TABLE", "2TABLE"));
        bench.script("axis.enable();");

        assertThat(bench.run()).isEqualTo(2);

        assertThat(bench.errors).contains("The site file cannot be used (2 problems). Nothing has moved.", "furlongs");
    }

    @Test
    void aMissingSiteFileIsToldWithItsName() {
        assertThat(bench.command("run", folder.resolve("nowhere.yaml").toString()))
                .isEqualTo(2);
        assertThat(bench.errors).contains("nowhere.yaml");
    }

    @Test
    void aWordThatIsNoCommandIsExplained() {
        assertThat(bench.command("rnu")).isEqualTo(2);
        assertThat(bench.errors).contains("rnu", "run");
    }
}
