package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.PersonPart.Outcome;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Steps that need a person, on an axis that the program takes for a real one. */
@Timeout(120)
class PeopleCommandTest {

    private static final String POINTS = """
            t.hold("Guards are closed");
            t.witness("Quarter turn");
            axis.enable();
            t.check("Way", axis.moveBy(0.25, "rev").travel(), nominal(0.25, "rev").plusMinus(1, "deg"));
            t.operate("Look at the mark");
            """;

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

    private String[] run(String... more) {
        List<String> words = new ArrayList<>(List.of(
                "run",
                bench.site.toString(),
                "--arm",
                "TABLE",
                "--operator",
                "O. Example",
                "--reports",
                bench.reports().toString()));
        words.addAll(List.of(more));
        return words.toArray(String[]::new);
    }

    private List<PersonPart> parts() throws Exception {
        return bench.onlyAttempt().steps().stream()
                .flatMap(step -> step.person().stream())
                .toList();
    }

    private static String withCheck(String step) {
        return step + "axis.enable();\n"
                + "t.check(\"Way\", axis.moveBy(0.25, \"rev\").travel(), nominal(0.25, \"rev\").plusMinus(1, \"deg\"));\n";
    }

    // Common practice, no source: a hold point stops the work until it is released, a witness point does not.
    @Test
    void aHoldPointIsReleasedByANamedPerson() throws Exception {
        bench.script(withCheck("t.hold(\"Guards are closed\");\n"));

        assertThat(bench.typing("\nyes\ny\nok\nHolder\nno\nyes H. Example\nH. Example\n", run()))
                .isZero();

        assertThat(bench.output)
                .contains("HOLD POINT  axis TABLE, trial T-1", "Guards are closed", "be out of its reach")
                .contains("Not taken: type first and last name");
        assertThat(bench.output.split("Not taken: ", -1)).hasSize(1 + 7);
        assertThat(parts()).singleElement().satisfies(part -> {
            assertThat(part.outcome()).isEqualTo(Outcome.RELEASED);
            assertThat(part.by()).isEqualTo("H. Example");
            assertThat(part.how()).isEqualTo("typed at the terminal");
        });
        assertThat(Files.readString(bench.pack().resolve("report.html")))
                .contains("released by H. Example, typed at the terminal");
    }

    @Test
    void aWitnessPointGoesOnWhenNobodyComes() throws Exception {
        bench.script(withCheck("t.witness(\"Quarter turn\");\n"));

        assertThat(bench.typing("\n", run())).isZero();

        assertThat(bench.output).contains("WITNESS POINT", "whether or not a witness comes");
        assertThat(parts()).extracting(PersonPart::outcome).containsExactly(Outcome.NOBODY_CAME);
    }

    @Test
    void aWitnessHasANameToo() throws Exception {
        bench.script(withCheck("t.witness(\"Quarter turn\");\n"));

        assertThat(bench.typing("yes\nnobody\nW. Example\n", run())).isZero();

        assertThat(bench.output).contains("Not taken: type first and last name", "or Enter alone if nobody came.");
        assertThat(parts()).extracting(PersonPart::by).containsExactly("W. Example");
    }

    @Test
    void workByHandIsDoneByTheOperator() throws Exception {
        bench.script(withCheck("t.operate(\"Look at the mark\");\n"));

        assertThat(bench.typing("\n", run())).isZero();

        assertThat(parts()).extracting(PersonPart::by).containsExactly("O. Example");
    }

    @Test
    void aRefusedHoldPointBlocksAndNothingMoves() throws Exception {
        bench.script(POINTS);

        assertThat(bench.typing("no way\nno H. Example\n\nthe door is open\n", run()))
                .isEqualTo(3);

        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(bench.onlyAttempt().reason()).contains("release refused by H. Example", "the door is open");
        assertThat(bench.output)
                .contains("Not taken: after \"no\" type first and last name", "Not taken: type the reason.");
        assertThat(bench.drive.motionsStarted()).isZero();
    }

    @Test
    void withoutATerminalAHoldPointBlocks() throws Exception {
        bench.script(POINTS);

        assertThat(bench.command(run())).isEqualTo(3);

        assertThat(bench.onlyAttempt().reason())
                .contains("the hold point \"Guards are closed\"", "there is nobody to ask", "--answers FILE");
        assertThat(bench.drive.motionsStarted()).isZero();
    }

    @Test
    void anAxisDoesNotMoveForAPersonWhoIsNotReady() throws Exception {
        bench.script("axis.enable();\n"
                + "axis.holdSpeed(30, \"rpm\", { for: [0.5, \"s\"], operate: \"Press the emergency stop\" });");

        assertThat(bench.typing("the key is missing\n", run())).isEqualTo(3);

        assertThat(bench.output).contains("THE AXIS WILL MOVE: Hold 30 r/min for 0.5 s.");
        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.BLOCKED);
        assertThat(bench.onlyAttempt().reason()).contains("could not be done by O. Example", "the key is missing");
        assertThat(bench.drive.motionsStarted()).isZero();
    }

    @Test
    void anAxisThatNobodyStoppedIsStoppedByTheProgramAndTheCheckFails() throws Exception {
        bench.script("axis.enable();\n"
                + "const hold = axis.holdSpeed(30, \"rpm\", { for: [0.5, \"s\"], operate: \"Press the emergency stop\","
                + " rehearse: { kind: \"drive trip\", code: 8976 } });\n"
                + "t.check(\"Stopped\", hold.stoppedAfter(), atMost(0.2, \"s\"));\n"
                + "t.check(\"Time\", hold.stoppingTime({ window: [1, \"deg\"] }), atMost(1, \"s\"));");

        assertThat(bench.typing("\n\n", run())).isEqualTo(1);

        assertThat(bench.onlyAttempt().checks())
                .extracting(check -> check.verdict())
                .containsExactly(Verdict.FAIL, Verdict.INCONCLUSIVE);
        assertThat(bench.onlyAttempt().checks().get(1).reason()).contains("the machine did not stop the axis");
        assertThat(bench.stands()).isTrue();
    }

    @Test
    void answersComeFromAFile() throws Exception {
        bench.script(POINTS);
        Path file = Files.writeString(folder.resolve("people.csv"), """
                kind;trial;axis;name;by;outcome;reason
                hold;T-1;TABLE;Guards are closed;H. Example;;
                witness;T-1;TABLE;Quarter turn;W. Example;present;
                operate;T-1;TABLE;Look at the mark;;not done;no light
                """);

        assertThat(bench.command(run("--answers", file.toString()))).isEqualTo(3);

        assertThat(parts())
                .extracting(PersonPart::outcome)
                .containsExactly(Outcome.RELEASED, Outcome.WITNESSED, Outcome.NOT_DONE);
        assertThat(parts().get(1).by()).isEqualTo("W. Example");
        assertThat(parts().get(2).how()).isEqualTo("from people.csv line 4");
        assertThat(bench.onlyAttempt().reason()).contains("\"Look at the mark\"", "no light");
    }

    @Test
    void aTrialIsTriedAgainOnlyForAReasonAndBothAttemptsStay() throws Exception {
        // Fails where it began and passes a quarter of a turn further.
        bench.script("axis.enable();\nconst before = axis.position(\"rev\");\n"
                + "t.check(\"Way\", axis.moveTo(0.25, \"rev\").travel(), atMost(before > 0.1 ? 1 : 0.1, \"rev\"));");

        assertThat(bench.typing("the coupling was loose\n", run("--retest"))).isZero();

        TrialRecord trial = bench.record().trials().get(0);
        assertThat(trial.verdict()).isEqualTo(Verdict.PASS);
        assertThat(trial.attempts())
                .extracting(TrialRecord.Attempt::verdict)
                .containsExactly(Verdict.FAIL, Verdict.PASS);
        assertThat(trial.attempts())
                .extracting(TrialRecord.Attempt::retestReason)
                .containsExactly(Optional.empty(), Optional.of("the coupling was loose"));
        String words = "attempt 1: FAIL; attempt 2 (the coupling was loose): PASS";
        assertThat(Files.readString(bench.pack().resolve("report.html")))
                .contains(
                        "passed on attempt 2 of 2, which decides",
                        words,
                        "Attempt 2 of 2, tried again because: the coupling was loose");
        assertThat(Files.readString(bench.pack().resolve("junit.xml"))).contains("<system-out>" + words);
        assertThat(bench.output).contains("RE-TEST?  axis TABLE, trial T-1: FAIL on attempt 1");
    }

    @Test
    void withoutAReasonNothingIsTriedAgain() throws Exception {
        bench.script("t.check(\"Way\", axis.dwell(0.2, \"s\").drift(), nominal(1, \"rev\").plusMinus(1, \"deg\"));");

        assertThat(bench.typing("\n", run("--retest"))).isEqualTo(1);

        assertThat(bench.onlyAttempt().retestReason()).isEmpty();
    }

    @Test
    void aRetestThatNobodyCanGiveAReasonForIsRefused() throws Exception {
        bench.script(POINTS);

        assertThat(bench.command(run("--retest"))).isEqualTo(2);

        assertThat(bench.errors).contains("a trial is not tried again without a reason");
        assertThat(bench.reports()).doesNotExist();
    }
}
