package org.axtrial.script;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.axtrial.evidence.RunEvent;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Holds the declarations for editors to the words that scripts really have. */
@Timeout(60)
class DeclarationsTest {

    private static final Path FILE = Path.of("test-scripts/axtrial.d.ts");

    @TempDir
    Path folder;

    private static String declarations() throws IOException {
        return Files.readString(FILE).replaceAll("(?s)/\\*.*?\\*/", "");
    }

    private static Set<String> membersOf(String declared) throws IOException {
        Matcher body = Pattern.compile("interface " + declared + " \\{(.*?)\\n    }", Pattern.DOTALL)
                .matcher(declarations());
        assertThat(body.find()).as(declared + " is declared").isTrue();
        return Pattern.compile("(?m)^ {8}(?:readonly )?(\\w+)[?(:]")
                .matcher(body.group(1))
                .results()
                .map(member -> member.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** The words of an object, as a script sees them. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Axis        | axis",
                "Motion      | axis.dwell(1, 's')",
                "LinkLoss    | axis.moveWithoutLink(1, 'rev', { cut: 'close', after: [1, 's'], lasts: [1, 's'] })",
                "LinkTimes   | axis.linkTimes({ reads: 3 })",
                "Measurement | axis.moveBy(1, 'rev').travel()",
                "Trial       | t",
                "Nominal     | nominal(1, 'mm')",
                "PositioningPlan | axis.positioningPlan(0, 1, 'rev', { overrun: [0.01, 'rev'], seed: 1 })",
                "Positioning | (() => { const m = axis.moveBy(1, 'rev').restPosition(); return t.positioning(["
                        + "{ target: [1, 'rev'], up: [m], down: [m] }, { target: [2, 'rev'], up: [m], down: [m] }]); })()",
            })
    void everyWordIsDeclaredAndNoOther(String declared, String expression) throws IOException {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial("t.note(Object.keys(" + expression + ").join(' '));"));
        String note = bench.events(RunEvent.StepDone.class).stream()
                .map(RunEvent.StepDone::text)
                .filter(text -> text.startsWith("Note: "))
                .findFirst()
                .orElseThrow();
        assertThat(membersOf(declared))
                .isEqualTo(
                        new TreeSet<>(Set.of(note.substring("Note: ".length()).split(" "))));
    }

    /** An option that does not exist makes the program list the ones that do. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "MoveOptions     | axis.moveBy(1, 'rev', { qqqqqqqq: 1 })",
                "MoveOptions     | axis.moveTo(1, 'rev', { qqqqqqqq: 1 })",
                "LinkTimesOptions | axis.linkTimes({ qqqqqqqq: 1 })",
                "ListedTexts     | axis.deviceIdentification({ qqqqqqqq: 'x' })",
                "DwellOptions    | axis.dwell(1, 's', { qqqqqqqq: 1 })",
                "OperateOptions  | t.operate('x', { qqqqqqqq: 1 })",
                "HoldOptions     | axis.holdSpeed(1, 'rpm', { qqqqqqqq: 1 })",
                "SettlingOptions | axis.moveBy(1, 'rev').settling({ qqqqqqqq: 1 })",
                "StoppingOptions | axis.holdSpeed(1, 'rpm', { for: [1, 's'] }).stoppingTime({ qqqqqqqq: 1 })",
                "PlanOptions     | axis.positioningPlan(0, 1, 'rev', { qqqqqqqq: 1 })",
                "PositioningTarget | t.positioning([{ qqqqqqqq: 1 }])",
                "ComputedOptions | t.computed(1, 'mm', { qqqqqqqq: 1 })",
            })
    void everyOptionIsDeclaredAndNoOther(String declared, String call) throws IOException {
        ScriptBench bench = new ScriptBench(folder);
        bench.run(ScriptBench.trial(call + ";"));
        String message = bench.broken().message();
        String known = message.substring(message.indexOf("known: ") + "known: ".length());
        assertThat(membersOf(declared)).isEqualTo(new TreeSet<>(Set.of(known.split(", "))));
    }

    @Test
    void everyExportUnitAndTrialOptionIsDeclared() throws IOException {
        Set<String> functions = Pattern.compile("export function (\\w+)")
                .matcher(declarations())
                .results()
                .map(function -> function.group(1))
                .collect(Collectors.toSet());
        assertThat(functions).containsExactlyInAnyOrderElementsOf(ScriptContext.EXPORTS);
        assertThat(membersOf("TrialOptions")).containsExactlyInAnyOrderElementsOf(TrialList.OPTIONS);

        Matcher units = Pattern.compile("type Unit =(.*?);", Pattern.DOTALL).matcher(declarations());
        assertThat(units.find()).isTrue();
        Set<String> declared = Pattern.compile("\"([^\"]+)\"")
                .matcher(units.group(1))
                .results()
                .map(unit -> unit.group(1))
                .collect(Collectors.toSet());
        assertThat(declared)
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(Unit.values()).map(Unit::symbol).toList());
    }
}
