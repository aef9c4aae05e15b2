package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Spoils every value of good files in turn: whatever stands there, the loader answers with problems, each told once. */
class SpoiltFilesTest {

    private static final Pattern VALUE = Pattern.compile("(?<=: )(\"[^\"]*\"|[^\\s{\\[,}\"][^,}\\n]*?)(?=\\s*[,}\\n])");
    private static final List<String> WRONG = List.of(
            "",
            "0",
            "-1",
            "1e300",
            "99999999999999999999",
            "\"\"",
            "\"x\"",
            "[]",
            "{}",
            "[1]",
            "{a: 1}",
            "true",
            "5 kg");

    @TempDir
    Path folder;

    @Test
    void everySpoiltValueOfASiteFileIsAnsweredWithProblemsToldOnce() throws Exception {
        assertThat(spoil(Files.readString(Path.of("test-scripts/demo/site.yaml")), "demo/site.yaml"))
                .isGreaterThan(1000);
    }

    @Test
    void everySpoiltValueOfADriveDescriptionIsAnsweredWithProblemsToldOnce() throws Exception {
        assertThat(spoil(Files.readString(Path.of("test-scripts/drives/type-d.yaml")), "drives/type-d.yaml"))
                .isGreaterThan(1000);
    }

    /** Returns how many spoilt files were tried. */
    private int spoil(String text, String name) throws Exception {
        Path target = copyDemo().resolve(name);
        Path site = folder.resolve("demo/site.yaml");
        int tried = 0;
        Matcher matcher = VALUE.matcher(text);
        while (matcher.find()) {
            for (String wrong : WRONG) {
                Files.writeString(target, text.substring(0, matcher.start()) + wrong + text.substring(matcher.end()));
                List<String> told = load(site);
                assertThat(new HashSet<>(told))
                        .as("%s instead of %s", wrong, matcher.group())
                        .hasSameSizeAs(told);
                tried++;
            }
        }
        return tried;
    }

    /** Paths with their places, of a load that may succeed but may not fail in any other way. */
    private static List<String> load(Path site) {
        List<String> told = new ArrayList<>();
        try {
            assertThat(SiteFile.load(site).axes()).isNotEmpty();
        } catch (SiteProblemsException e) {
            assertThat(e.problems()).isNotEmpty();
            e.problems().forEach(problem -> told.add(problem.file() + " " + problem.path()));
        }
        return told;
    }

    private Path copyDemo() throws Exception {
        Files.createDirectories(folder.resolve("demo"));
        Files.createDirectories(folder.resolve("drives"));
        for (String name : List.of("demo/site.yaml", "drives/type-d.yaml", "drives/type-c.yaml")) {
            Files.copy(Path.of("test-scripts").resolve(name), folder.resolve(name));
        }
        return folder;
    }
}
