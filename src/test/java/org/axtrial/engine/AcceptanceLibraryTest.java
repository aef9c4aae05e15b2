package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The acceptance library as it is shipped: complete, described, and sound on sound axes. */
@Timeout(300)
class AcceptanceLibraryTest {

    private static final Path SOURCE = Path.of("test-scripts/acceptance");

    private static final Pattern NUMBER = Pattern.compile("number: (\\d+)");

    @TempDir
    Path folder;

    private static List<Path> scripts() throws IOException {
        try (Stream<Path> files = Files.walk(SOURCE)) {
            return files.filter(file -> file.toString().endsWith(".js")
                            && !file.resolveSibling("").getFileName().toString().startsWith("_"))
                    .sorted()
                    .toList();
        }
    }

    private static Set<Integer> numbersIn(String text, Pattern number) {
        return number.matcher(text)
                .results()
                .map(found -> Integer.valueOf(found.group(1)))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void everyTrialOfTheCatalogueHasAScript() throws IOException {
        Set<Integer> covered = new TreeSet<>();
        for (Path script : scripts()) {
            covered.addAll(numbersIn(Files.readString(script), NUMBER));
        }
        Set<Integer> wanted = IntStream.rangeClosed(1, 38).boxed().collect(Collectors.toCollection(TreeSet::new));
        assertThat(covered).isEqualTo(wanted);
        assertThat(numbersIn(Files.readString(Path.of("docs/trials.md")), Pattern.compile("(?m)^\\| (\\d+) \\|")))
                .isEqualTo(wanted);
    }

    @Test
    void everyScriptTellsPurposeMethodCautionsAndSourceAndStandsInSiteFileAndCatalogue() throws IOException {
        String site = Files.readString(SOURCE.resolve("site.yaml"));
        String catalogue = Files.readString(Path.of("docs/trials.md"));
        for (Path script : scripts()) {
            String name = SOURCE.relativize(script).toString().replace('\\', '/');
            String text = Files.readString(script);
            assertThat(text.substring(0, text.indexOf("\nimport ")).replaceAll("\\s*\\n// *", " "))
                    .as(name)
                    .matches(
                            "(?s)// \\d+ .*Purpose .*Method .*Cautions .*Rules of the place and people licensed.*Source .*"
                                    + "|(?s)// \\d+ .*Purpose .*Method .*Cautions .*rules of the place\\. People licensed.*Source .*"
                                    + "|(?s)// \\d+ .*Purpose .*Method .*Cautions .*People licensed for the work come first.*Source .*"
                                    + "|(?s)// \\d+ .*Purpose .*Method .*Cautions .*Local rules come first.*Source .*");
            assertThat(site).contains("  - " + name + "\n");
            assertThat(catalogue).contains("`" + name + "`");
        }
    }

    /** Held as real axes are, so that the order of the site file is shown to prove before it moves far. */
    @Test
    void theWholeLibraryPassesOnThreeSoundAxesThatAreHeldUntilTheirScaleIsProven() throws Exception {
        RunRecord record = LibraryRun.rehearse(
                folder,
                site -> site.replace(
                        "    afterTrial:", "    firstMotion: { travel: 0.1 rev, speed: 6 rpm }\n    afterTrial:"));
        assertThat(record.trials().stream()
                        .flatMap(trial -> trial.attempts().stream())
                        .flatMap(attempt -> attempt.steps().stream())
                        .filter(step -> step.text().startsWith("Sense and scale are proven")))
                .hasSize(3);

        assertThat(record.trials())
                .allSatisfy(trial -> assertThat(trial.verdict())
                        .as(trial.axis() + " " + trial.trial() + ": " + trial.reason())
                        .isEqualTo(Verdict.PASS));
        assertThat(record.trials()).extracting(TrialRecord::axis).contains("CARRIAGE", "HOIST", "TABLE");
        assertThat(record.trials()).hasSizeGreaterThan(110);
    }

    /**
     * A trial that fails a sound axis is worse than none. Three trials on one axis, about eight seconds of virtual time, for
     * each of a hundred seeds: other reply times, and another noise of the encoder, half a count here.
     */
    @Test
    void aHundredSoundAxesGiveNoFalseAlarm() throws Exception {
        for (int seed = 1; seed <= 100; seed++) {
            Path own = Files.createDirectory(folder.resolve("s" + seed));
            String with = "    simulate:\n      seed: " + (1000 + seed) + "\n";
            RunRecord record = LibraryRun.rehearse(
                    own,
                    site -> oneAxis(site)
                            .replace("    simulate:\n", with)
                            .replace(
                                    "feedback: { start: 18500 count }",
                                    "feedback: { start: 18500 count, noise: 0.5 count }"),
                    "reference/enable.js",
                    "dynamic/settling.js",
                    "dynamic/speed.js");
            assertThat(record.trials())
                    .allSatisfy(trial -> assertThat(trial.verdict())
                            .as(trial.trial() + " with seed " + with.strip() + ": " + trial.reason())
                            .isEqualTo(Verdict.PASS));
            assertThat(record.trials()).hasSize(3);
        }
    }

    private static String oneAxis(String site) {
        return site.substring(0, site.indexOf("  # Vertical, belt"))
                .replaceAll("(?m)^  - [a-z-]+/[a-z-]+\\.js\\n", "")
                .replace("scripts:\n", "scripts:\n  - dynamic/speed.js\n");
    }
}
