package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AnswersFileTest {

    private static final String HEAD = "trial;axis;name;value;unit;temperature;by\n";

    @TempDir
    Path folder;

    private List<GivenAnswer> load(String name, String text) throws Exception {
        return AnswersFile.load(Files.writeString(folder.resolve(name), text), target -> Optional.empty())
                .readings();
    }

    private List<String> problems(String name, String text) {
        List<String> told = new ArrayList<>();
        assertThatThrownBy(() -> load(name, text))
                .isInstanceOfSatisfying(
                        AnswersProblemsException.class,
                        e -> e.problems()
                                .forEach(problem -> told.add(problem.toString().replace(folder + "/", ""))));
        return told;
    }

    @Test
    void yamlIsRead() throws Exception {
        assertThat(load("a.yaml", """
                answers:
                  - { trial: P-1, axis: X, name: Target 1, value: 12.345, unit: mm }
                  - { trial: P-1, axis: X, name: Target 2, value: -7, unit: um, temperature: 21.5, by: R. Example }
                """))
                .containsExactly(
                        new GivenAnswer(
                                "P-1", "X", "Target 1", Quantity.parse("12.345 mm"), OptionalDouble.empty(), "", 1, 2),
                        new GivenAnswer(
                                "P-1",
                                "X",
                                "Target 2",
                                Quantity.parse("-7 um"),
                                OptionalDouble.of(21.5),
                                "R. Example",
                                1,
                                3));
    }

    // Common practice, no source: who releases or witnesses is named in full.
    @Test
    void aHoldPointAndAWitnessPointNeedTheNameOfAPerson() throws Exception {
        assertThat(problems("a.yaml", """
                answers:
                  - { kind: hold, trial: P-1, axis: X, name: Guards are closed, by: yes }
                  - { kind: hold, trial: P-1, axis: X, name: Area is clear }
                  - { kind: hold, trial: P-1, axis: X, name: Door is closed, by: ok, outcome: refused, reason: open }
                  - { kind: witness, trial: P-1, axis: X, name: Stop, by: Sample }
                  - { kind: operate, trial: P-1, axis: X, name: Press, by: fitter }
                """))
                .satisfiesExactly(
                        first -> assertThat(first)
                                .startsWith("a.yaml:2:")
                                .contains("by is \"yes\"; it is the first and last name of the person"),
                        second -> assertThat(second).contains("missing: by; a hold point needs the name"),
                        third -> assertThat(third).startsWith("a.yaml:4:").contains("by is \"ok\""),
                        fourth -> assertThat(fourth).startsWith("a.yaml:5:").contains("by is \"Sample\""));
    }

    @Test
    void oneNumberWithACommaTellsForTheWholeTable() throws Exception {
        assertThat(load(
                        "a.CSV",
                        "\ufeff" + HEAD + "P-1;X;\"Target; 1\";1,234;mm;;\r\nP-1;X;T2;0,5;mm;20,25;me\r\n\r\n"))
                .extracting(GivenAnswer::name, answer -> answer.value().value(), GivenAnswer::line)
                .containsExactly(tuple("Target; 1", 1.234, 2), tuple("T2", 0.5, 3));
    }

    @Test
    void oneNumberWithAPointTellsForTheWholeTable() throws Exception {
        assertThat(load(
                        "a.csv",
                        "trial,axis,name,value,unit\nP-1,X,T1,1.234,mm\nP-1,X,T2,0.5,mm\nP,X,T,\"1,500\",mm\n"))
                .extracting(answer -> answer.value().value())
                .containsExactly(1.234, 0.5, 1500.0);
    }

    @Test
    void aTableThatCouldBeReadEitherWayIsRefusedWithItsLines() {
        assertThat(problems("a.csv", HEAD + "P;X;T1;1,234;mm;;\nP;X;T2;12;mm;;\nP;X;T3;9,999;mm;;\n"))
                .singleElement()
                .asString()
                .startsWith("a.csv:2:1: ")
                .contains("lines 2, 4", "write 1,2340 if", "or 1234 if");
    }

    @Test
    void bothSignsInOneFileAreRefusedWithTheirLines() {
        assertThat(problems("a.csv", HEAD + "P;X;T1;1.5;mm;;\nP;X;T2;2,5;mm;;\n"))
                .singleElement()
                .asString()
                .contains("decimal point (line 2)", "decimal comma (line 3)");
        // A number by the rules of YAML has a point, so a comma beside it is a mixture.
        assertThat(problems("a.yaml", """
                        answers:
                          - { trial: P, axis: X, name: T1, value: 1.234, unit: mm }
                          - { trial: P, axis: X, name: T2, value: "2,5", unit: mm }
                        """))
                .singleElement()
                .asString()
                .contains("decimal point (line 2)", "decimal comma (line 3)");
    }

    @Test
    void everythingWrongIsToldAtOnce() {
        assertThat(problems(
                        "a.csv",
                        HEAD + "P;X;T1;12 mm;mm;;\nP;X;T2;1,5;mn;;\nP;X;;1,5;mm;;\nP;X;T4;1,5;mm;warm;\nP;X;T2\n"
                                + "P;X;T5;1,5;mm;;\nP;X;T5;1,6;mm;;\n"))
                .satisfiesExactly(
                        p -> assertThat(p).startsWith("a.csv:2:").contains("value is \"12 mm\"; expected a number"),
                        p -> assertThat(p).startsWith("a.csv:3:").contains("unknown unit \"mn\"; did you mean"),
                        p -> assertThat(p).startsWith("a.csv:4:").contains("missing: name"),
                        p -> assertThat(p).startsWith("a.csv:5:").contains("temperature is \"warm\""),
                        p -> assertThat(p).startsWith("a.csv:6:").contains("has 3 cells and the header 7"),
                        p -> assertThat(p).startsWith("a.csv:8:").contains("answered already in line 7"));
        assertThat(problems("a.yaml", "answer: []\n"))
                .anySatisfy(p -> assertThat(p).contains("unknown key; the answers are a list under answers:"));
        assertThat(problems("a.yaml", "answers:\n  - { trail: P, axis: X, name: T, value: true, unit: mm }\n"))
                .anySatisfy(p -> assertThat(p).contains("unknown key; did you mean \"trial\"?"))
                .anySatisfy(p -> assertThat(p).contains("answers[0].value: expected a text or a number, found true"));
        assertThat(problems("a.yaml", "answers:\n  - { trial: P, axis: X, name: T, value: 10,004, unit: mm }\n"))
                .anySatisfy(p -> assertThat(p).contains("answers[0].004: unknown key", "write a point, such as 12.34"));
        assertThat(problems("a.csv", "trial;axis;nam;value;unit\n"))
                .anySatisfy(p -> assertThat(p).contains("unknown column \"nam\"; did you mean \"name\"?"));
    }

    @Test
    void eachAttemptHasAnswersOfItsOwn() throws Exception {
        Answers answers =
                AnswersFile.load(Files.writeString(folder.resolve("a.yaml"), """
                answers:
                  - { trial: P-1, axis: X, name: Target 1, value: 12.3, unit: mm }
                  - { kind: retest, trial: P-1, axis: X, reason: clamp tightened }
                  - { trial: P-1, axis: X, name: Target 1, value: 12.1, unit: mm, attempt: 2 }
                """), target -> Optional.empty());

        assertThat(answers.readings()).extracting(GivenAnswer::attempt).containsExactly(1, 2);
        assertThat(answers.people())
                .containsExactly(
                        new PersonAnswer(AnswerKind.RETEST, "P-1", "X", "", true, "", "clamp tightened", 2, 3));
    }

    @Test
    void mistakesAboutAttemptsAreTold() {
        assertThat(problems("a.yaml", """
                answers:
                  - { trial: P-1, axis: X, name: Target 1, value: 12.3, unit: mm, attempt: 0 }
                  - { kind: retest, trial: P-1, axis: X, reason: clamp tightened, attempt: 1 }
                  - { kind: retest, trial: P-1, axis: X }
                  - { kind: retest, trial: P-1, axis: X, reason: a, by: R. Example }
                  - { kind: retest, trial: P-1, axis: X, reason: b, attempt: 2 }
                """))
                .anyMatch(line -> line.contains("a.yaml:2:")
                        && line.contains("attempt is \"0\"; expected a whole number from 1 to 99"))
                .anyMatch(line -> line.contains("a.yaml:3:") && line.contains("from 2 to 99"))
                .anyMatch(line -> line.contains("a.yaml:4:") && line.contains("missing: reason"))
                .anyMatch(line -> line.contains("a.yaml:5:") && line.contains("retest has no by"))
                .anyMatch(line -> line.contains("a.yaml:6:")
                        && line.contains("the re-test of P-1 on X, attempt 2, is answered already in line 5"));
    }

    @Test
    void aFileThatIsNotThereIsTold() {
        for (String name : List.of("none.csv", "none.yaml")) {
            assertThatThrownBy(() -> AnswersFile.load(folder.resolve(name), answer -> Optional.empty()))
                    .isInstanceOf(AnswersProblemsException.class)
                    .hasMessageContaining(name);
        }
    }

    @Test
    void anAnswerThatIsForNothingIsToldWithTheRest() {
        assertThatThrownBy(() -> AnswersFile.load(
                        Files.writeString(folder.resolve("a.csv"), HEAD + "P;X;T1;1,5;mm;;\nP;X;T2;x;mm;;\n"),
                        answer -> Optional.of("there is no trial " + answer.trial())))
                .hasMessageContaining("a.csv:2:1: there is no trial P")
                .hasMessageContaining("a.csv:3:1: value is \"x\"");
    }
}
