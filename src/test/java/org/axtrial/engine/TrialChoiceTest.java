package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.axtrial.evidence.RunSelection;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.script.TrialDefinition;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Which trials are chosen, and what is said of the others. What belongs to a work: common practice, no source. */
@Timeout(120)
class TrialChoiceTest {

    private static final List<String> AXES = List.of("X", "Z");

    /** The table once more, written out number by number: common practice, no source. */
    private static final Map<String, List<Integer>> TABLE = table();

    private static Map<String, List<Integer>> table() {
        Map<String, List<Integer>> table = new LinkedHashMap<>();
        table.put("motor", List.of(6, 7, 8, 10, 11, 12, 13, 15, 18, 20, 24, 32, 33));
        table.put("encoder", List.of(6, 7, 9, 10, 11, 12, 13, 14, 15, 16, 18, 25));
        List<Integer> drive = List.of(1, 2, 3, 4, 5, 6, 7, 8, 11, 12, 13, 24, 25, 26, 27, 28, 29, 30, 31, 37);
        table.put("drive", drive);
        table.put("firmware", drive);
        for (String mechanics : List.of("belt", "coupling", "screw", "gearbox")) {
            table.put(mechanics, List.of(7, 9, 14, 15, 16, 17, 18, 20, 32, 33, 34, 35));
        }
        table.put("limit-switch", List.of(9, 11, 12, 13));
        table.put("brake", List.of(32, 33));
        table.put("parameters", List.of(4, 5, 6, 7, 8, 11, 12, 13, 18, 25));
        table.put("safety", List.of(26, 27, 28));
        return table;
    }

    private static NavigableSet<Integer> expected(List<String> works) {
        NavigableSet<Integer> numbers = new TreeSet<>(List.of(1, 2, 3, 4, 5, 6, 7, 37));
        works.forEach(work -> numbers.addAll(TABLE.getOrDefault(work, List.of())));
        return numbers;
    }

    private static TrialDefinition trial(String id, OptionalInt number, String clause, String... tags) {
        String script = id + ".js";
        return new TrialDefinition(
                script,
                id,
                "Title of " + id,
                Optional.empty(),
                List.of(),
                clause,
                number,
                List.of(tags),
                Map.of(),
                Optional.empty(),
                Duration.ofMinutes(1),
                new ScriptPlace(script, 1, 1, ""));
    }

    private static List<TrialDefinition> numbered() {
        return IntStream.rangeClosed(1, 38)
                .mapToObj(number -> trial("T-" + number, OptionalInt.of(number), ""))
                .toList();
    }

    private static TrialChoice after(String... works) {
        return new TrialChoice(List.of(works), List.of(), List.of(), List.of());
    }

    private static List<String> ids(RunSelection selection) {
        return selection.picked().stream()
                .map(one -> one.trial() + " " + one.axis())
                .toList();
    }

    @Provide
    Arbitrary<List<String>> works() {
        return Arbitraries.of(TABLE.keySet()).list().ofMinSize(1).ofMaxSize(4);
    }

    @Property(tries = 200)
    void afterAnyWorksTheTableIsChosenAndNothingElse(@ForAll("works") List<String> works) {
        TrialChoice choice = new TrialChoice(works, List.of(), List.of(), List.of());
        RunSelection chosen = choice.of(numbered(), List.of("X"));
        NavigableSet<Integer> numbers = new TreeSet<>();
        chosen.picked().forEach(one -> numbers.add(Integer.parseInt(one.trial().substring(2))));
        assertThat(numbers).isEqualTo(expected(works)).isEqualTo(choice.numbers());
        assertThat(chosen.leftOut()).hasSize(38 - numbers.size());
        assertThat(chosen.notCovered()).isEmpty();
        assertThat(chosen.picked()).allMatch(one -> !one.reason().isEmpty());
    }

    @Test
    void everyWorkOfTheTableIsKnownAndNoOther() {
        assertThat(MaintenanceTable.load().works()).containsOnlyKeys(TABLE.keySet());
        assertThat(MaintenanceTable.load().catalogue())
                .containsOnlyKeys(IntStream.rangeClosed(1, 38).boxed().toList());
    }

    @Test
    void theDocumentShowsTheSameTable() throws Exception {
        Map<String, String> rows = new LinkedHashMap<>();
        for (String line : Files.readAllLines(Path.of("docs/trials.md"))) {
            String[] cells = line.split("\\|", -1);
            if (cells.length == 5 && cells[1].strip().startsWith("`")) {
                for (String word : cells[1].split(",", -1)) {
                    rows.put(word.strip().replace("`", ""), cells[3].strip());
                }
            }
        }
        assertThat(rows).containsOnlyKeys(TABLE.keySet());
        rows.forEach((word, cell) -> {
            NavigableSet<Integer> numbers = MaintenanceTable.Numbers.parse(
                            cell.replaceAll("\\(.*\\)", "").replace('–', '-').strip())
                    .all();
            assertThat(numbers).as(word).isEqualTo(new TreeSet<>(TABLE.get(word)));
        });
    }

    @Test
    void theAcceptanceLibraryCoversEveryNumber() throws Exception {
        Site site = SiteFile.load(Path.of("test-scripts/acceptance/site.yaml"));
        SiteSession.Scripts scripts = SiteSession.scripts(site, List.of());
        assertThat(scripts.trials().stream()
                        .flatMapToInt(one -> one.number().stream())
                        .distinct()
                        .sorted())
                .containsExactlyElementsOf(IntStream.rangeClosed(1, 38).boxed().toList());
        // What an axis has no trial for is told: only HOIST has a brake, and it has no instrument.
        List<String> axes = site.axes().stream().map(axis -> axis.name()).toList();
        assertThat(scripts.chosen(after("brake"), axes)
                        .selection()
                        .orElseThrow()
                        .notCovered())
                .containsExactlyInAnyOrder(
                        "not covered on HOIST: 2 Register truth, needs a person",
                        "not covered on "
                                + String.join(
                                        ", ",
                                        axes.stream()
                                                .filter(axis -> !axis.equals("HOIST"))
                                                .toList())
                                + ": 32 Brake hold, needs a holding brake");
    }

    @Test
    void theFirstComesFirstAndThePowerCycleLast() throws Exception {
        Site site = SiteFile.load(Path.of("test-scripts/acceptance/site.yaml"));
        List<Path> backwards = new ArrayList<>(site.scripts());
        Collections.reverse(backwards);
        List<String> names = SiteSession.scripts(site, backwards)
                .chosen(
                        after("brake"),
                        site.axes().stream().map(axis -> axis.name()).toList())
                .names();
        assertThat(names)
                .containsExactly(
                        "before-motion/identity.js",
                        "before-motion/register-truth.js",
                        "before-motion/link-quality.js",
                        "before-motion/parameters.js",
                        "before-motion/inputs.js",
                        "reference/enable.js",
                        "reference/sense-and-scale.js",
                        "stops/enable-sequence.js",
                        "stops/brake.js",
                        "endurance/power-cycle.js");
    }

    @Test
    void eachReasonOfTheTableIsTold() {
        RunSelection chosen = after("motor", "drive").of(numbered(), List.of("X"));
        assertThat(chosen.reason("T-4.js", "T-4", "X")).contains("always first: 1–7; after drive: 1–8");
        assertThat(chosen.reason("T-7.js", "T-7", "X"))
                .contains("always first: 1–7; after motor: 6–8; after drive: 1–8");
        assertThat(chosen.reason("T-37.js", "T-37", "X")).contains("after drive: 37; always last: 37");
        assertThat(chosen.reason("T-9.js", "T-9", "X")).isEmpty();
        assertThat(chosen.sentence()).isEqualTo("after motor or drive: 26 of 38 trials");
    }

    @Test
    void whatNoScriptCoversIsTold() {
        List<TrialDefinition> trials =
                numbered().stream().filter(one -> one.number().getAsInt() != 27).toList();
        assertThat(after("drive").of(trials, AXES).notCovered())
                .containsExactly("not covered: 27 Emergency stop, by the real device, needs a person");
    }

    @Test
    void safetyWiringIsNotValidatedHere() {
        assertThat(after("safety").of(numbered(), AXES).notes())
                .anyMatch(note -> note.contains("an authorised person must validate it"));
    }

    @Test
    void oneKindOfChoiceTakesAnyOfItsWordsAndAllKindsMustHold() {
        List<TrialDefinition> trials = List.of(
                trial("A", OptionalInt.of(32), "4.1", "slow"),
                trial("B", OptionalInt.of(33), "4.2", "slow", "stops"),
                trial("C", OptionalInt.of(20), "4.2", "stops"),
                trial("D", OptionalInt.empty(), "", "slow"));
        List<String> none = List.of();
        assertThat(ids(new TrialChoice(none, none, List.of("slow", "stops"), none).of(trials, AXES)))
                .hasSize(8);
        assertThat(ids(new TrialChoice(none, none, none, List.of("4.1", "4.2")).of(trials, AXES)))
                .containsExactly("A X", "A Z", "B X", "B Z", "C X", "C Z");
        RunSelection all =
                new TrialChoice(List.of("brake"), List.of("Z"), List.of("stops"), List.of("4.2")).of(trials, AXES);
        assertThat(ids(all)).containsExactly("B Z");
        assertThat(all.picked().get(0).reason()).isEqualTo("after brake: 33; axis Z; tag stops; clause 4.2");
        assertThat(all.sentence()).isEqualTo("after brake, and axis Z, and tag stops, and clause 4.2: 1 of 8 trials");
        assertThat(all.leftOut()).hasSize(7);
    }

    @Test
    void allUnknownWordsAreToldAtOnceWithTheKnownOnes() {
        List<TrialDefinition> trials = List.of(trial("A", OptionalInt.of(32), "4.1", "slow"));
        assertThat(new TrialChoice(List.of("motr"), List.of("Y9"), List.of("slwo"), List.of("5"))
                        .problems(trials, AXES))
                .containsExactly(
                        "--after: there is no \"motr\"; did you mean \"motor\"?; known: "
                                + String.join(", ", TABLE.keySet()),
                        "--axis: there is no \"Y9\"; known: X, Z",
                        "--tag: there is no \"slwo\"; did you mean \"slow\"?; known: slow",
                        "--clause: there is no \"5\"; known: 4.1");
        assertThat(after("motor").problems(trials, AXES)).isEmpty();
    }
}
