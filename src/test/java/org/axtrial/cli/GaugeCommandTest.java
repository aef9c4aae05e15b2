package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.measure.GaugeExample;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A gauge study of the test itself, over the records of many runs. */
@Timeout(120)
class GaugeCommandTest {

    private static final JsonMapper JSON = new JsonMapper();

    private static final double[][] DATA = GaugeExample.readings();

    @TempDir
    private Path folder;

    private String out = "";
    private String err = "";

    private int gauge(List<Path> packs, String... options) {
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        ByteArrayOutputStream refused = new ByteArrayOutputStream();
        List<String> words = new ArrayList<>(List.of("gauge"));
        words.addAll(List.of(options));
        packs.forEach(pack -> words.add(pack.toString()));
        int code = Main.run(
                Terminal.on(
                        new PrintStream(told, true, StandardCharsets.UTF_8),
                        new PrintStream(refused, true, StandardCharsets.UTF_8)),
                words.toArray(String[]::new));
        out = told.toString(StandardCharsets.UTF_8);
        err = refused.toString(StandardCharsets.UTF_8);
        return code;
    }

    /** Makes records like a real one, with other operators, axes and values in them. */
    private List<Path> packs(int runs, int axes) throws Exception {
        ObjectNode template =
                (ObjectNode) JSON.readTree(Files.readAllBytes(samplePack().resolve("record.json")));
        ObjectNode trial = (ObjectNode) template.path("trials").get(0);
        ObjectNode check =
                (ObjectNode) trial.path("attempts").get(0).path("checks").get(0);
        List<Path> packs = new ArrayList<>();
        for (int run = 0; run < runs; run++) {
            ObjectNode record = template.deepCopy();
            ((ObjectNode) record.path("setup")).put("operator", "Operator " + (char) ('A' + run / 3));
            ((ObjectNode) record.path("stamps")).put("startedAt", "2031-01-01T08:00:0" + run + "Z");
            ((ObjectNode) record.path("stamps")).put("runId", "run-" + run);
            ArrayNode trials = record.putArray("trials");
            for (int axis = 0; axis < axes; axis++) {
                ObjectNode own = trial.deepCopy();
                own.put("axis", "AXIS" + axis);
                ObjectNode measured = (ObjectNode)
                        own.path("attempts").get(0).path("checks").get(0).path("measured");
                measured.put("value", DATA[run][axis]);
                trials.add(own);
            }
            Path pack = Files.createDirectory(folder.resolve("run-" + run));
            Files.write(pack.resolve("record.json"), JSON.writeValueAsBytes(record));
            packs.add(pack);
        }
        name = check.path("name").asString();
        return packs;
    }

    private String name = "";

    private static Path samplePack() {
        return Path.of("reports/sample");
    }

    @Test
    void theHandbookExampleComesOutOfTheRecords() throws Exception {
        List<Path> packs = packs(9, 10);
        assertThat(gauge(packs, "--check", name)).isZero();
        // EV 0.202, AV 0.230, GRR 0.306, PV 1.10; 26.7 % and 5 categories. Source: as the data.
        assertThat(out)
                .contains("operators Operator A, Operator B, Operator C", "3 readings each")
                .containsPattern("repeatability \\(same operator\\) +0\\.202 ")
                .containsPattern("reproducibility \\(operators\\) +0\\.230? ")
                .containsPattern("the test, both together +0\\.306 ")
                .containsPattern("the axes +1\\.10? ")
                .contains("27 % of the spread by average and range", "tells 5 kinds of axes apart");
    }

    @Test
    void anUnevenSetTellsWhatIsMissing() throws Exception {
        List<Path> packs = packs(8, 3);
        assertThat(gauge(packs, "--check", name)).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("Operator C has 2 instead of 3 readings on axis AXIS0", "AXIS1", "AXIS2");
    }

    @Test
    void anUnknownCheckNamesThoseThatThereAre() throws Exception {
        List<Path> packs = packs(2, 2);
        assertThat(gauge(packs, "--check", "Nonsense")).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("no run has a check \"Nonsense\"", '"' + name + '"');
    }

    @Test
    void aMissingRecordIsNamedOnceWithWhatToDo() {
        Path empty = folder.resolve("empty");
        assertThat(gauge(List.of(empty), "--check", "Any")).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).containsOnlyOnce("record.json").contains("does not exist", "Name the folder of a run");
    }
}
