package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What can be wrong with a file before anything in it can be understood. */
class YamlSourceTest {

    @TempDir
    Path folder;

    @Test
    void fileThatIsNotThere() {
        Path file = folder.resolve("site.yaml");

        assertThat(new SiteBench(folder).problems(file))
                .containsExactly("site.yaml: there is no such file; looked for site.yaml");
    }

    @Test
    void folderInsteadOfAFile() {
        Path parent = folder.resolve("..").resolve(folder.getFileName());

        assertThat(new SiteBench(folder).problems(parent))
                .singleElement()
                .asString()
                .endsWith("this is a folder; expected a YAML file");
    }

    @Test
    void scriptInsteadOfASiteFile() throws IOException {
        Path file = Files.writeString(folder.resolve("first.js"), "import { trial } from \"axtrial\";");

        assertThat(new SiteBench(folder).problems(file))
                .containsExactly(
                        "first.js: this is a script, not a YAML file; name the site file first, then the scripts");
    }

    @Test
    void percentSignWithoutQuotes() throws IOException {
        assertThat(problemsOf("limits: { unit: % }\n"))
                .isEqualTo("site.yaml:1:17: a value cannot begin with % in YAML; put it in quotes: \"%\"");
    }

    @Test
    void emptyFile() throws IOException {
        assertThat(problemsOf("  \n\n")).isEqualTo("site.yaml: the file is empty");
    }

    @Test
    void nothingButComments() throws IOException {
        assertThat(problemsOf("# later\n")).isEqualTo("site.yaml: the file holds nothing but comments");
    }

    @Test
    void fileThatIsNotUtf8() throws IOException {
        Path file = Files.write(
                folder.resolve("site.yaml"), "job: { title: Abnahme für }".getBytes(StandardCharsets.ISO_8859_1));

        assertThat(new SiteBench(folder).problems(file))
                .containsExactly("site.yaml: the file is not UTF-8; save it as UTF-8 in the editor");
    }

    @Test
    void fileThatIsFarTooLarge() throws IOException {
        assertThat(problemsOf("#".repeat(1_000_001)))
                .isEqualTo("site.yaml: the file has 1000001 bytes; expected at most 1000000");
    }

    @Test
    void indentationByTab() throws IOException {
        assertThat(problemsOf("job:\n\tid: J-1\n"))
                .isEqualTo("site.yaml:2:1: the line is indented with a tab; YAML wants spaces");
    }

    @Test
    void twoColonsInOneLine() throws IOException {
        assertThat(problemsOf("job: id: J-1\n"))
                .isEqualTo("site.yaml:1:8: this is not YAML: mapping values are not allowed here");
    }

    @Test
    void aliasWithoutAnchor() throws IOException {
        assertThat(problemsOf("job: *other\n"))
                .isEqualTo("site.yaml:1:6: this is not YAML: found undefined alias other");
    }

    @Test
    void listAtTheTop() throws IOException {
        assertThat(problemsOf("- job\n"))
                .isEqualTo("site.yaml:1:1: expected keys and values at the top of the file, found a list");
    }

    @Test
    void keyGivenTwice() {
        String twice = "      speed: 600 rpm\n      speed: 300 rpm";

        assertThat(new SiteBench(folder).site("      speed: 600 rpm", twice).problems())
                .containsExactly("site.yaml:10:7: axes[0].envelope.speed: the key stands here for the second time;"
                        + " it was first given in line 9");
    }

    @Test
    void aliasOfTheBlockItStandsIn() throws IOException {
        assertThat(problemsOf("job: &a { id: *a }\n"))
                .isEqualTo("site.yaml:1:6: job.id: an alias here refers to the block it stands in");
    }

    @Test
    void aliasesThatGrowWithoutBound() throws IOException {
        // Common practice, no source: each line holds the one above ten times.
        StringBuilder text = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 9; i++) {
            text.append(
                    "a%d: &a%d [%s]\n".formatted(i, i, "*a%d, ".formatted(i - 1).repeat(10)));
        }

        assertThat(problemsOf(text.toString())).containsAnyOf("aliases", "Number of aliases");
    }

    @Test
    void aliasMayShareABlock() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .site("scale: { countsPerRevolution: 65536 }", "scale: { countsPerRevolution: &counts 65536 }")
                .site("{ countsPerRevolution: 65536, lead", "{ countsPerRevolution: *counts, lead")
                .load();

        assertThat(site.axes().get(1).setup().scale().encoderCounts()).isEqualTo(65536);
    }

    @Test
    void numberThatIsNone() {
        assertThat(new SiteBench(folder)
                        .drive("expected: 0x12345678", "expected: .nan")
                        .problems())
                .containsExactly("drive.yaml:19:50: identity.model.expected: expected a finite number, found .nan");
    }

    @Test
    void numberBeyond64Bits() {
        assertThat(new SiteBench(folder)
                        .drive("expected: 0x12345678", "expected: 99999999999999999999")
                        .problems())
                .containsExactly("drive.yaml:19:50: identity.model.expected: expected a number within 64 bits, found"
                        + " 99999999999999999999");
    }

    @Test
    void foreignTag() {
        assertThat(new SiteBench(folder).site("id: J-1", "id: !secret J-1").problems())
                .containsExactly("site.yaml:1:12: job.id: the tag !secret means nothing here; leave it out");
    }

    private String problemsOf(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("site.yaml"), text);
        return String.join("\n", new SiteBench(folder).problems(file));
    }
}
