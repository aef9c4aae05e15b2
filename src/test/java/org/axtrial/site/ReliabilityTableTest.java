package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Makes the table of docs/reliability.md anew and holds the committed one against it. With
 * {@code -Dreliability.write=true} it writes the table instead.
 */
@Timeout(180)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ReliabilityTableTest {

    private static final Path DOCUMENT = Path.of("docs/reliability.md");
    private static final String BEGIN = "<!-- table begins -->\n";
    private static final String END = "<!-- table ends -->\n";
    private static final String HEAD = """
            | fault | command | wire | frames sent | outcome told | wrong samples accepted | motions beyond the one ordered | standstill | struck until stopped and told |
            |---|---|---|---|---|---|---|---|---|
            """;

    private List<ReliabilityTable.Row> rows = List.of();

    @BeforeAll
    void make(@TempDir Path folder) throws Exception {
        rows = new ReliabilityTable(folder).rows();
    }

    @Test
    void noWrongSampleIsAccepted() {
        assertThat(rows).allSatisfy(row -> assertThat(row.wrongSamples()).isZero());
    }

    @Test
    void noMotionBeyondTheOneOrdered() {
        assertThat(rows).allSatisfy(row -> assertThat(row.motionsTooMany()).isZero());
    }

    @Test
    void noCommandThatActsIsSentTwice() {
        assertThat(rows).allSatisfy(row -> assertThat(row.frames()).isIn("0", "1", "1 or more"));
    }

    @Test
    void noShaftTurnsInTheEndAndNoStandstillIsClaimedWrongly() {
        assertThat(rows)
                .allSatisfy(row ->
                        assertThat(row.standstill()).doesNotContain("WRONG").doesNotContain("TURNS"));
    }

    @Test
    void theCommittedTableIsThisOne() throws Exception {
        String document = Files.readString(DOCUMENT);
        int begin = document.indexOf(BEGIN) + BEGIN.length();
        int end = document.indexOf(END);
        if (Boolean.getBoolean("reliability.write")) {
            String table = rows.stream().map(ReliabilityTable.Row::line).collect(Collectors.joining("\n", HEAD, "\n"));
            Files.writeString(DOCUMENT, document.substring(0, begin) + table + document.substring(end));
            return;
        }
        List<String> committed = document.substring(begin, end).lines().skip(2).toList();
        List<String> sure = new ArrayList<>();
        for (int i = 0; i < Math.min(rows.size(), committed.size()); i++) {
            String line = committed.get(i);
            sure.add(
                    rows.get(i).wire().equals("TCP")
                            ? line.substring(0, line.lastIndexOf('|', line.length() - 2) + 1)
                            : line);
        }
        assertThat(sure).isEqualTo(rows.stream().map(ReliabilityTable.Row::sure).toList());
        assertThat(committed).hasSameSizeAs(rows);
    }
}
