package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(120)
class ReadingsCommandTest {

    private static final String INSTRUMENTS = """
            operator: R. Example
            instruments:
              - id: ANG-1
                type: autocollimator (invented)
                serial: "0417"
                certificate: K-118
                calibrated: 2001-01-01
                due: 9999-12-31
                resolution: 0.01 deg
                uncertainty: { expanded: 0.02 deg, k: 2 }
              - id: OLD-1
                type: indicator (invented)
                serial: "7"
                certificate: K-119
                calibrated: 2001-01-01
                due: 2002-01-01
                resolution: 0.01 mm
                uncertainty: { standard: 0.01 mm }
                temperatureCoefficient: 11.5
            """;

    private static final String READS = """
            axis.enable();
            axis.moveBy(0.25, "rev");
            const m = t.reading("Angle after a quarter", { instrument: "ANG-1", unit: "deg" });
            t.check("Angle", m, nominal(90, "deg").plusMinus(1, "deg"));
            """;

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
        bench.instruments(INSTRUMENTS);
    }

    @AfterEach
    void stop() {
        bench.close();
    }

    private String[] run(String... more) {
        List<String> words = new ArrayList<>(List.of(
                "run",
                bench.site.toString(),
                "--arm",
                "TABLE",
                "--reports",
                bench.reports().toString()));
        words.addAll(List.of(more));
        return words.toArray(String[]::new);
    }

    @Test
    void aFileAnswersForEachAttemptAndSaysWhyThereIsASecond() throws Exception {
        bench.script(READS);
        String file = answers("answers.yaml", """
                answers:
                  - { trial: T-1, axis: TABLE, name: Angle after a quarter, value: 93.5, unit: deg }
                  - { kind: retest, trial: T-1, axis: TABLE, reason: the mirror was loose }
                  - { trial: T-1, axis: TABLE, name: Angle after a quarter, value: 90.02, unit: deg, attempt: 2 }
                  - { kind: retest, trial: T-1, axis: TABLE, reason: never needed, attempt: 3 }
                """);

        assertThat(bench.command(run("--answers", file)))
                .as(bench.output + bench.errors)
                .isZero();

        TrialRecord trial = bench.record().trials().get(0);
        assertThat(trial.attemptsInWords()).isEqualTo("attempt 1: FAIL; attempt 2 (the mirror was loose): PASS");
        assertThat(trial.attempts().get(1).checks().get(0).measured().toString())
                .contains("90.02");
        assertThat(bench.errors).contains(":5: not used: the re-test of T-1 on TABLE, attempt 3");
    }

    @Test
    void anAttemptWithoutAnAnswerOfItsOwnIsBlocked() throws Exception {
        bench.script(READS);
        String file = answers("answers.yaml", """
                answers:
                  - { trial: T-1, axis: TABLE, name: Angle after a quarter, value: 93.5, unit: deg }
                  - { kind: retest, trial: T-1, axis: TABLE, reason: the mirror was loose }
                """);

        assertThat(bench.command(run("--answers", file))).isEqualTo(3);

        assertThat(bench.record().trials().get(0).reason()).contains("for attempt 2 is missing in");
    }

    private String answers(String name, String text) throws Exception {
        return Files.writeString(folder.resolve(name), text).toString();
    }

    @Test
    void aPersonIsAskedUntilTheAnswerIsClear() throws Exception {
        bench.script(READS);

        assertThat(bench.typing("ninety\n1,234\n90 dge\n90 mm\n90,12 deg\n", run()))
                .isZero();

        assertThat(bench.output)
                .contains("READING  axis TABLE, trial T-1", "Angle after a quarter", "on ANG-1: autocollimator")
                .contains("Not taken: \"ninety\" is no number")
                .contains("Not taken: \"1,234\" may be thousands or decimals; write 1,2340 if")
                .contains("Not taken: unknown unit \"dge\"; did you mean \"deg\"?")
                .contains("Not taken: \"mm\" is a unit of another kind")
                .contains("Taken: 90.12°");
        TrialRecord.Attempt attempt = bench.onlyAttempt();
        CheckRecord check = attempt.checks().get(0);
        assertThat(check.measured().source()).isEqualTo(Source.INSTRUMENT);
        assertThat(check.measured().value()).hasValue(90.12);
        assertThat(attempt.steps())
                .extracting(TrialRecord.Step::text)
                .contains("Reading \"Angle after a quarter\" on ANG-1: 90.12°, read by R. Example, typed at the"
                        + " terminal");
    }

    @Test
    void theEndOfTheInputBlocksTheTrialAndTheAxisStands() throws Exception {
        bench.script(READS);

        assertThat(bench.typing("", run())).isEqualTo(3);

        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(bench.onlyAttempt().reason()).contains("\"Angle after a quarter\" on ANG-1", "has ended");
        assertThat(bench.stands()).isTrue();
    }

    @Test
    void withoutATerminalAReadingBlocksTheTrial() throws Exception {
        bench.script(READS);

        assertThat(bench.command(run())).isEqualTo(3);

        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(bench.onlyAttempt().reason()).contains("give the values with --answers FILE", "t.js:5:");
    }

    @Test
    void answersComeFromAFileWhichIsKeptAndHashed() throws Exception {
        bench.script(READS);
        String file = answers("read.csv", """
                trial;axis;name;value;unit;by
                T-1;TABLE;Angle after a quarter;90,250;deg;A. Reader
                T-1;TABLE;Never asked;0,5;deg;
                """);

        assertThat(bench.command(run("--answers", file))).as(bench.errors).isZero();

        assertThat(bench.onlyAttempt().checks().get(0).measured().value()).hasValue(90.25);
        assertThat(bench.onlyAttempt().steps())
                .extracting(TrialRecord.Step::text)
                .anySatisfy(text -> assertThat(text).contains("read by A. Reader, from read.csv line 2"));
        assertThat(bench.record().files())
                .anySatisfy(kept -> assertThat(kept.name()).isEqualTo("answers/read.csv"));
        assertThat(Manifest.verify(bench.pack())).isEmpty();
        assertThat(bench.errors).contains("read.csv:3: not used: \"Never asked\" of T-1 on TABLE");
        assertThat(Files.readString(bench.pack().resolve("report.html"))).contains("Instruments</h2>", "K-118");
    }

    @Test
    void answersThatFitNothingAreToldBeforeAnythingMoves() throws Exception {
        bench.script(READS);
        String file = answers("read.yaml", """
                answers:
                  - { trial: T-2, axis: TABLE, name: Angle after a quarter, value: 90.25, unit: deg }
                  - { trial: T-1, axis: TABEL, name: Angle after a quarter, value: 90.25, unit: deg }
                """);

        assertThat(bench.command(run("--answers", file))).isEqualTo(2);

        assertThat(bench.errors)
                .contains("The answers cannot be used (2 problems). Nothing has moved.")
                .contains("read.yaml:2:", "no script of this run has a trial \"T-2\"; did you mean \"T-1\"?")
                .contains("read.yaml:3:", "the site has no axis \"TABEL\"; did you mean \"TABLE\"?");
        assertThat(bench.reports()).doesNotExist();
        assertThat(bench.drive.motionsStarted()).isZero();
    }

    @Test
    void aMissingAnswerIsNamedWithTheNearest() throws Exception {
        bench.script(READS);
        String file = answers("read.csv", "trial;axis;name;value;unit\nT-1;TABLE;Angle after a quater;90,25;deg\n");

        assertThat(bench.command(run("--answers", file))).isEqualTo(3);

        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(bench.onlyAttempt().reason())
                .contains("\"Angle after a quarter\" on ANG-1", "did you mean \"Angle after a quater\"?");
    }

    @Test
    void anOverdueInstrumentStandsOnTheFirstPageAndCannotPass() throws Exception {
        bench.script(
                "t.check(\"Gap\", t.reading(\"Gap\", { instrument: \"OLD-1\", unit: \"mm\" }), atMost(2, \"mm\"));");
        String file = answers("read.yaml", """
                answers:
                  - { trial: T-1, axis: TABLE, name: Gap, value: 1.25, unit: mm, temperature: 22 }
                """);

        assertThat(bench.command(run("--answers", file))).isEqualTo(3);

        TrialRecord.Attempt attempt = bench.onlyAttempt();
        assertThat(attempt.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(attempt.reason()).contains("the calibration of instrument OLD-1 was due on 2002-01-01");
        String report = Files.readString(bench.pack().resolve("report.html"));
        assertThat(report.substring(report.indexOf("Deviations and notes"), report.indexOf("Signatures")))
                .contains("Instrument OLD-1 (indicator (invented), serial 7, certificate K-119) was overdue");
        assertThat(report).contains("<strong>OVERDUE</strong>");
    }

    @Test
    void aTemperatureThatIsNeededIsAskedFor() throws Exception {
        bench.script(
                "t.check(\"Gap\", t.reading(\"Gap\", { instrument: \"OLD-1\", unit: \"mm\" }), atMost(2, \"mm\"));");

        assertThat(bench.typing("1.25\nwarm\n22,5\n", run())).isEqualTo(3);

        assertThat(bench.output)
                .contains("Temperature of OLD-1 in degC: ", "Not taken: \"warm\"", "1.25 mm at 22.5 °C");
        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }
}
