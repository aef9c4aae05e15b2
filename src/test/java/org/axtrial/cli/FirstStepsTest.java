package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a newcomer copies out of README.md and docs/scripts.md does what stands beside it. */
@Timeout(180)
class FirstStepsTest {

    @TempDir
    private Path folder;

    private String section = "";
    private String output = "";

    @BeforeEach
    void copyTheFilesOfYourFirstTrial() throws IOException {
        String scripts = Files.readString(Path.of("docs/scripts.md"));
        int start = scripts.indexOf("## Your first trial");
        section = scripts.substring(start, scripts.indexOf("\n## ", start + 1));
        Files.writeString(
                folder.resolve("drive.yaml"), block(Files.readString(Path.of("docs/drive-description.md")), "yaml"));
        Files.writeString(folder.resolve("site.yaml"), block(section, "yaml"));
        Files.writeString(folder.resolve("first.js"), block(section, "js"));
    }

    @Test
    void yourFirstTrialEndsAsTheDocumentSays() {
        List<String> commands = block(section, "sh").lines().toList();
        assertThat(commands).hasSize(2);

        for (String command : commands) {
            assertThat(axtrial(folder, command)).as(output).isZero();
            assertThat(output.lines()).contains(block(section, "text").strip());
        }
    }

    @Test
    void theTrialIsTenLines() {
        assertThat(block(section, "js").lines()).hasSize(10);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    plusMinus(0.1, "mm") | plusMinus(0.001, "mm") | INCONCLUSIVE | 3
                    atMost(50, "%")      | atMost(1, "%")         | FAIL         | 1
                    axis.moveBy(10, "mm" | axis.moveBy(60, "mm"   | ERROR        | 1
                    """)
    void eachChangeGoesWrongAsTheDocumentSays(String right, String changed, String verdict, int code)
            throws IOException {
        assertThat(section).contains("`" + changed + "`", "(" + verdict + ")");
        String script = Files.readString(folder.resolve("first.js"));
        assertThat(script).contains(right);
        Files.writeString(
                folder.resolve("first.js"),
                script.replaceFirst(Pattern.quote(right), Matcher.quoteReplacement(changed)));

        assertThat(axtrial(folder, "axtrial rehearse site.yaml")).as(output).isEqualTo(code);
        assertThat(output).contains(verdict + "  (1 " + verdict + ")");
    }

    @ParameterizedTest
    @CsvSource({"README.md", "docs/scripts.md"})
    void theFirstExampleOfADocumentPassesOnTheMachineOfTheDemonstration(Path document) throws IOException {
        Path demo = DemoCopy.into(Files.createDirectory(folder.resolve("copy"))).resolveSibling("");
        Files.writeString(demo.resolve("example.js"), block(Files.readString(document), "js"));

        assertThat(axtrial(demo, "axtrial rehearse site.yaml example.js"))
                .as(output)
                .isZero();
        assertThat(output).contains("PASS  (3 PASS)");
    }

    /** Types a command of the document as if the folder were the one to work in. */
    private int axtrial(Path in, String command) {
        List<String> words = new ArrayList<>(List.of(command.split(" ")));
        assertThat(words.remove(0)).isEqualTo("axtrial");
        words.replaceAll(word -> word.contains(".") ? in.resolve(word).toString() : word);
        words.addAll(List.of("--reports", folder.resolve("reports").toString()));
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(told, true, StandardCharsets.UTF_8);
        int code = Main.run(Terminal.on(stream, stream), words.toArray(String[]::new));
        output = told.toString(StandardCharsets.UTF_8);
        return code;
    }

    /** The first block of code of that language. */
    private static String block(String text, String language) {
        String fence = "```" + language + "\n";
        int start = text.indexOf(fence);
        assertThat(start).as("a block of %s", language).isNotNegative();
        return text.substring(start + fence.length(), text.indexOf("```", start + fence.length()));
    }
}
