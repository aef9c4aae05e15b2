package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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

    /** Source: AIAG MSA, 4th edition, 10 parts × 3 appraisers × 3 trials (from memory). By appraiser and trial. */
    private static final double[][] DATA = {
        {0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36},
        {0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25},
        {0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31},
        {0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68},
        {0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62},
        {0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50},
        {0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49},
        {-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77},
        {-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16},
    };

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
}
