package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/** The results as a table for spreadsheet programs. */
class ResultsCsvTest {

    private static final Path SAMPLE = Path.of("reports/sample");

    @TempDir
    private Path folder;

    private RunRecord record(Consumer<ObjectNode> change) throws IOException {
        ObjectNode record = (ObjectNode) Json.MAPPER.readTree(Files.readAllBytes(SAMPLE.resolve("record.json")));
        change.accept(record);
        Files.write(folder.resolve("record.json"), Json.MAPPER.writeValueAsBytes(record));
        return RunRecord.read(folder);
    }

    private static ObjectNode check(ObjectNode record) {
        return (ObjectNode) record.at("/trials/0/attempts/0/checks/0");
    }

    /** A reader of its own, after the grammar of RFC 4180, section 2, with the separator as given. */
    private static List<List<String>> read(String text, char separator) {
        assertThat(text).startsWith("\uFEFF").endsWith("\r\n");
        List<List<String>> rows = new ArrayList<>();
        List<String> row = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        for (int i = 1; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"') {
                boolean doubled = quoted && text.charAt(i + 1) == '"';
                if (doubled) {
                    cell.append('"');
                    i++;
                } else {
                    quoted = !quoted;
                }
            } else if (!quoted && (c == separator || c == '\n')) {
                row.add(cell.toString());
                cell.setLength(0);
                if (c == '\n') {
                    rows.add(row);
                    row = new ArrayList<>();
                }
            } else if (quoted || c != '\r') {
                cell.append(c);
            }
        }
        return rows;
    }

    private static String cell(List<List<String>> rows, int row, String head) {
        return rows.get(row).get(rows.get(0).indexOf(head));
    }

    @Test
    void everyCheckHasARowWithACellForEachHead() throws IOException {
        RunRecord record = record(change -> {});
        long checks = record.trials().stream()
                .flatMap(trial -> trial.attempts().stream())
                .mapToLong(attempt -> Math.max(1, attempt.checks().size()))
                .sum();
        List<List<String>> rows = read(ResultsCsv.text(record, Locale.UK), ',');
        assertThat(rows)
                .hasSize((int) checks + 1)
                .allMatch(row -> row.size() == rows.get(0).size());
    }

    @Test
    void theLocaleDecidesDecimalSignAndSeparator() throws IOException {
        RunRecord record = record(change -> ((ObjectNode) check(change).path("measured")).put("value", -1.25));
        assertThat(cell(read(ResultsCsv.text(record, Locale.UK), ','), 1, "value"))
                .isEqualTo("-1.25");
        assertThat(cell(read(ResultsCsv.text(record, Locale.GERMANY), ';'), 1, "value"))
                .isEqualTo("-1,25");
        assertThat(cell(read(ResultsCsv.text(record, Locale.GERMANY), ';'), 1, "lower limit"))
                .isEqualTo("-8");
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "  =1", "\uFF1D1"})
    void aTextThatWouldBeWorkedOutIsGuarded(String name) throws IOException {
        RunRecord record = record(change -> check(change).put("name", name));
        assertThat(cell(read(ResultsCsv.text(record, Locale.UK), ','), 1, "check"))
                .startsWith("'");
    }

    @Test
    void quotesAndSeparatorsStayInTheirCell() throws IOException {
        String name = "a \"b\"; c, d";
        RunRecord record = record(change -> check(change).put("name", name));
        assertThat(cell(read(ResultsCsv.text(record, Locale.UK), ','), 1, "check"))
                .isEqualTo(name);
        assertThat(cell(read(ResultsCsv.text(record, Locale.FRANCE), ';'), 1, "check"))
                .isEqualTo(name);
    }

    @Test
    void aBoundIsToldAndAMissingValueIsEmpty() throws IOException {
        RunRecord record = record(change -> ((ObjectNode) check(change).path("measured"))
                .put("bound", "AT_LEAST")
                .putNull("value")
                .put("missing", "not seen"));
        List<List<String>> rows = read(ResultsCsv.text(record, Locale.UK), ',');
        assertThat(cell(rows, 1, "bound")).isEqualTo("at least");
        assertThat(cell(rows, 1, "value")).isEmpty();
    }

    @Test
    void aTrialThatDidNotRunHasARow() throws IOException {
        RunRecord record = record(change -> {
            ObjectNode trial = (ObjectNode) change.at("/trials/0");
            trial.put("verdict", "NOT RUN").put("reason", "left out").putArray("attempts");
        });
        List<List<String>> rows = read(ResultsCsv.text(record, Locale.UK), ',');
        assertThat(cell(rows, 1, "trial verdict")).isEqualTo("NOT RUN");
        assertThat(cell(rows, 1, "reason")).isEqualTo("left out");
        assertThat(rows.get(1)).hasSameSizeAs(rows.get(0));
    }

    @Test
    void aFileThatIsThereIsNotReplaced() throws IOException {
        RunRecord record = record(change -> {});
        Path file = folder.resolve("a.csv");
        ResultsCsv.write(record, Locale.UK, file);
        assertThat(Files.readString(file)).isEqualTo(ResultsCsv.text(record, Locale.UK));
        assertThatThrownBy(() -> ResultsCsv.write(record, Locale.UK, file)).hasMessageContaining("already there");
    }
}
