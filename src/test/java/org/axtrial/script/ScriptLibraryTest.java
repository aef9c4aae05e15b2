package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(60)
class ScriptLibraryTest {

    private static final String IMPORT = "import { trial, nominal } from \"axtrial\";\n";
    private static final String TRIAL = "trial('T', { id: 'T-1' }, () => {});\n";

    @TempDir
    Path folder;

    @TempDir
    Path outside;

    @Test
    void trialsAreFoundWithTheirOptionsAndPlace() {
        Discovery discovery = new ScriptBench(folder)
                .discover(IMPORT
                        + "trial('First', { id: 'T-1', axes: ['X', 'Y'], clause: '4.2', limit: [2, 'min'] }, () => {});\n"
                        + "trial('Second', { id: 'T-2' }, () => {});\n");
        assertThat(discovery.problems()).isEmpty();
        assertThat(discovery.trials())
                .containsExactly(
                        new TrialDefinition(
                                "t.js",
                                "T-1",
                                "First",
                                Optional.of(List.of("X", "Y")),
                                "4.2",
                                Duration.ofMinutes(2),
                                new ScriptPlace(
                                        "t.js",
                                        2,
                                        1,
                                        "trial('First', { id: 'T-1', axes: ['X', 'Y'], clause: '4.2', limit: [2, 'min'] }, () => {});")),
                        new TrialDefinition(
                                "t.js",
                                "T-2",
                                "Second",
                                Optional.empty(),
                                "",
                                Duration.ofMinutes(5),
                                new ScriptPlace("t.js", 3, 1, "trial('Second', { id: 'T-2' }, () => {});")));
    }

    @Test
    void moduleOfTheFolderIsImportedAlsoFromAbove() {
        ScriptBench bench = new ScriptBench(folder)
                .file("_lib/a.js", "export { n } from \"../_lib/b.js\";")
                .file("_lib/b.js", "export const n = 'N-7';");
        Discovery discovery =
                bench.discover(IMPORT + "import { n } from './_lib/a.js';\ntrial('T', { id: n }, () => {});");
        assertThat(discovery.problems()).isEmpty();
        assertThat(discovery.trials().get(0).id()).isEqualTo("N-7");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "../out.js                   | lies outside the scripts folder",
                "/etc/passwd                 | lies outside the scripts folder",
                "file:///etc/passwd          | is an address",
                "https://example.org/a.js    | is an address",
                "./link.js                   | is a link that leads out of the scripts folder",
                "./nope.js                   | there is no file \"nope.js\" in the scripts folder",
                "./sub                       | is not a file",
                "fs                          | there is no module \"fs\"",
                "sub/x.js                    | there is no module \"sub/x.js\"",
            })
    void importOfAnythingElseIsRefusedWithItsPlace(String specifier, String message) throws IOException {
        Files.writeString(outside.resolve("secret.js"), "export const x = 1;");
        Files.createSymbolicLink(folder.resolve("link.js"), outside.resolve("secret.js"));
        Files.createDirectories(folder.resolve("sub"));
        Discovery discovery =
                new ScriptBench(folder).discover(IMPORT + "import { x } from \"" + specifier + "\";\n" + TRIAL);
        assertThat(discovery.problems()).hasSize(1);
        ScriptProblem problem = discovery.problems().get(0);
        assertThat(problem.message()).contains(message);
        assertThat(problem.place())
                .contains(new ScriptPlace("t.js", 2, 19, "import { x } from \"" + specifier + "\";"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "const a = ;              | 2 | 11 | this is not JavaScript",
                "import { trail } from \"axtrial\"; | 2 | 10 | the module \"axtrial\" has no word \"trail\"; did you mean \"trial\"?",
                "nominl(1, 'mm');         | 2 | 1 | nominl is not defined; did you mean \"nominal\"?",
                "atMost(1, 'mm');         | 2 | 1 | add it to the import: import { atMost, … } from \"axtrial\"",
                "nominal(1, 'furlong');   | 2 | 1 | unknown unit \"furlong\"",
                "for (;;) {}              | 2 | 1 | executed more than 5000000 statements",
                "trial('T', {}, () => {}); | 2 | 1 | has no id",
                "trial('T', { id: 'a/b' }, () => {}); | 2 | 1 | is not fit for a file name",
                "trial('T', { id: 'a', axis: 'X' }, () => {}); | 2 | 1 | trial has no option \"axis\"; did you mean \"axes\"?",
                "trial('T', { id: 'a' }); | 2 | 1 | trial takes 3 arguments but got 2",
                "trial('T', { id: 'a' }, 5); | 2 | 1 | the third argument must be a function but is 5",
                "trial('T', { id: 'a', axes: [] }, () => {}); | 2 | 1 | must be a name or a list of names",
                "trial('T', { id: 'a', limit: 5 }, () => {}); | 2 | 1 | must be a value and a unit in brackets",
            })
    void mistakeWhileLoadingIsAProblemWithItsPlace(String line, int row, int column, String message) {
        Discovery discovery = new ScriptBench(folder).discover(IMPORT + line);
        assertThat(discovery.problems()).hasSize(1);
        assertThat(discovery.problems().get(0).message()).contains(message);
        ScriptPlace place = discovery.problems().get(0).place().orElseThrow();
        assertThat(place.line()).isEqualTo(row);
        assertThat(place.column()).isEqualTo(column);
        assertThat(place.text()).isEqualTo(line.strip());
    }

    @Test
    void trialsBehindAPromiseThatNeverEndsAreNotLostSilently() {
        Discovery discovery = new ScriptBench(folder).discover(IMPORT + "await new Promise(() => {});\n" + TRIAL);
        assertThat(discovery.problems().get(0).message()).contains("ended with a pending promise");
    }

    /** Names that would lead out of the sandbox are simply not there. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "Java",
                "Polyglot",
                "Graal",
                "load",
                "loadWithNewGlobal",
                "read",
                "quit",
                "print",
                "console",
                "process",
                "require",
                "fetch",
                "setTimeout",
                "Worker",
                "WebAssembly",
                "Packages",
                "java",
                "__axtrial"
            })
    void sandboxHasNoWayOut(String name) {
        Discovery discovery =
                new ScriptBench(folder).discover(IMPORT + "if (typeof " + name + " === 'undefined') { " + TRIAL + " }");
        assertThat(discovery.problems()).isEmpty();
        assertThat(discovery.trials()).hasSize(1);
    }

    @Test
    void textThatRanIsTheTextThatWasFound() throws IOException {
        ScriptBench bench = new ScriptBench(folder).file("t.js", IMPORT + TRIAL);
        ScriptLibrary library = new ScriptLibrary(folder);
        TrialDefinition trial = library.discover("t.js").trials().get(0);
        Files.writeString(folder.resolve("t.js"), "broken(");
        TrialOutcome outcome = library.prepare(trial, bench.axis, 1, bench.sink).run();
        assertThat(outcome.reason()).contains("no check was made");
    }

    // Source: ILAC-G8:09/2019, 4.2.1 to 4.2.3: 99 with U = 2 lies inside the limit of 100, but not by U.
    @ParameterizedTest
    @CsvSource({"SIMPLE, PASS", "GUARD, FAIL", "NON_BINARY, INCONCLUSIVE"})
    void checksAreJudgedByTheRuleOfTheLibrary(String name, Verdict verdict) {
        DecisionRule rule = switch (name) {
            case "GUARD" -> new DecisionRule.GuardBand(1);
            case "NON_BINARY" -> new DecisionRule.NonBinary(1);
            default -> DecisionRule.SIMPLE;
        };
        ScriptBench bench = new ScriptBench(folder).file("t.js", ScriptBench.trial("""
                                axis.position("deg");
                                const x = t.computed(99, "deg", { from: ["position"], uncertainty: [1, "deg"] });
                                t.check("Near", x, atMost(100, "deg"));"""));
        ScriptLibrary library = new ScriptLibrary(folder, rule);
        TrialDefinition trial = library.discover("t.js").trials().get(0);
        assertThat(library.prepare(trial, bench.axis, 1, bench.sink).run().verdict())
                .isEqualTo(verdict);
    }
}
