package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SnapshotRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The commands that look and move nothing, on simulated drives behind real TCP. */
@Timeout(120)
class LinkCommandTest {

    private static final String DEMO = "test-scripts/demo/site.yaml";

    @TempDir
    Path folder;

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();

    private int run(String... arguments) {
        PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
        return Main.run(Terminal.on(stream, stream), arguments);
    }

    private String told() {
        return out.toString(StandardCharsets.UTF_8);
    }

    private RunRecord record() throws Exception {
        try (Stream<Path> packs = Files.list(folder)) {
            return RunRecord.read(packs.filter(Files::isDirectory)
                    .sorted()
                    .reduce((a, b) -> b)
                    .orElseThrow());
        }
    }

    private String report() throws Exception {
        return Files.readString(folder.resolve(record().stamps().runId()).resolve("report.html"));
    }

    @Test
    void linkProvesTheDemonstrationAndLeavesAPack() throws Exception {
        int code = run("link", DEMO, "--reads", "30", "--reports", folder.toString(), "--hand-move", "TURNTABLE,LIFT");
        assertThat(record().links()).extracting(LinkRecord::axis).containsExactly("TURNTABLE", "INFEED", "LIFT");
        assertThat(record().links())
                .as(told())
                .allMatch(link -> link.outcome() == LinkRecord.Grade.PROVEN
                        // A busy computer may be slower than the sample period, which link then says.
                        || link.findings().stream()
                                .allMatch(finding -> finding.text().startsWith("The link is too slow")));
        assertThat(code).as(told()).isIn(0, 3);
        assertThat(told()).contains("TURNTABLE").contains("proven").contains("in the positive direction");
        assertThat(report())
                .contains("Links to the drives")
                .containsPattern("Links looked at by reading alone: 3 (proven|not proven)|[12] (proven|not proven)")
                .contains("nothing is proven about motion")
                .contains("Moved by hand")
                .contains("SIMULATED");
    }

    @Test
    void aWrongDescriptionEndsInCodeOneWithTheLineToChange() throws Exception {
        try (CommandBench bench = CommandBench.start(Files.createDirectory(folder.resolve("bench")))) {
            Path site = bench.site;
            String text = Files.readString(site);
            String description = Files.readString(Path.of("test-scripts/drives/type-d.yaml"));
            Files.writeString(
                    folder.resolve("spoilt.yaml"),
                    description.replace("wordOrder: low-first", "wordOrder: high-first"));
            Path spoiltSite = folder.resolve("spoilt-site.yaml");
            Files.writeString(spoiltSite, text.replaceFirst("drive: .*", "drive: spoilt.yaml"));
            int code = run(
                    "link",
                    spoiltSite.toString(),
                    "--reads",
                    "5",
                    "--reports",
                    folder.resolve("r").toString());
            assertThat(code).as(told()).isEqualTo(1);
            assertThat(told())
                    .contains("with the words swapped")
                    .containsPattern("look at .*spoilt.yaml:\\d+: wordOrder: ");
            assertThat(bench.drive.writes()).isZero();
        }
    }

    @Test
    void aSnapshotAgreesWithItselfAndDiffersFromAnApprovedSet() throws Exception {
        assertThat(run("snapshot", DEMO, "--reports", folder.toString(), "--as", "found"))
                .as(told())
                .isZero();
        Path first = folder.resolve(record().stamps().runId()).resolve("snapshot-as-found.json");
        assertThat(first).exists();
        assertThat(run("snapshot", DEMO, "--reports", folder.toString(), "--against", first.toString()))
                .as(told())
                .isZero();
        assertThat(told()).contains("Nothing differs from");
        Path approved = Files.writeString(folder.resolve("approved.yaml"), "INFEED: { ratedTorque: 2.4 Nm }\n");
        assertThat(run(
                        "snapshot",
                        DEMO,
                        "--reports",
                        folder.toString(),
                        "--as",
                        "left",
                        "--against",
                        approved.toString()))
                .isEqualTo(1);
        assertThat(told()).contains("CHANGED  INFEED.ratedTorque  2.4 Nm → 0 Nm");
        assertThat(record().snapshots()).hasSize(1);
        assertThat(record().snapshots().get(0).differences())
                .anyMatch(difference -> difference.kind() == SnapshotRecord.Kind.CHANGED);
        assertThat(report()).contains("Parameters of the drives").contains("As left");
    }

    @Test
    void badOptionsAreRefused() {
        assertThat(run("link", DEMO, "--reads", "0", "--reports", folder.toString()))
                .isEqualTo(2);
        assertThat(run("link", DEMO, "--hand-move", "NOBODY", "--reports", folder.toString()))
                .isEqualTo(2);
        assertThat(run("snapshot", DEMO, "--against", "nowhere.json", "--reports", folder.toString()))
                .isEqualTo(2);
    }
}
