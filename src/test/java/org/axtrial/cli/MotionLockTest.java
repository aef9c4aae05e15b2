package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A drive that the program takes for a real one moves only after its link check. */
@Timeout(120)
class MotionLockTest {

    private static final String MOVE = "  axis.enable();\n  axis.moveBy(0.1, \"rev\");\n";

    @TempDir
    Path folder;

    @Test
    void aDriveThatIsProvenMovesAndTheProofIsInTheRecord() throws Exception {
        try (CommandBench bench = CommandBench.start(folder).script(MOVE)) {
            bench.run();
            assertThat(bench.output).contains("Link check: 1 of 1 axes proven");
            assertThat(bench.drive.motionsStarted()).isPositive();
            RunRecord record = bench.record();
            assertThat(record.links()).hasSize(1);
            assertThat(record.links().get(0).outcome()).isEqualTo(LinkRecord.Grade.PROVEN);
        }
    }

    @Test
    void aDriveThatIsReadWronglyIsLockedWhateverTheOperatorArms() throws Exception {
        try (CommandBench bench = CommandBench.start(folder).script(MOVE)) {
            String description = Files.readString(Path.of("test-scripts/drives/type-d.yaml"));
            Files.writeString(
                    folder.resolve("spoilt.yaml"),
                    description.replace("wordOrder: low-first", "wordOrder: high-first"));
            Files.writeString(bench.site, Files.readString(bench.site).replaceFirst("drive: .*", "drive: spoilt.yaml"));
            int code = bench.run();
            assertThat(code).as(bench.output + bench.errors).isEqualTo(3);
            assertThat(bench.output).contains("LOCKED TABLE: modelCode at address 100");
            assertThat(bench.drive.writes()).as("writes on the wire").isZero();
            assertThat(bench.drive.motionsStarted()).isZero();
            RunRecord record = bench.record();
            assertThat(record.links().get(0).outcome()).isEqualTo(LinkRecord.Grade.WRONG);
            assertThat(record.trials().get(0).verdict()).isEqualTo(Verdict.BLOCKED);
        }
    }

    @Test
    void onlyAnAxisOnTrialCanBeArmed() throws Exception {
        try (CommandBench bench = CommandBench.start(folder).script(MOVE).behindNeighbour()) {
            int code = bench.command(
                    "run",
                    bench.site.toString(),
                    "--axis",
                    "TABLE",
                    "--arm",
                    "NEIGHBOUR",
                    "--reports",
                    bench.reports().toString());

            assertThat(code).isEqualTo(2);
            assertThat(bench.errors).contains("This run has no axis NEIGHBOUR; it has TABLE. Nothing has moved.");
            assertThat(bench.reports()).as("no pack is begun").doesNotExist();
        }
    }

    @Test
    void anAxisIsHeldAgainstItsOwnLinkWhenOthersAreLeftOut() throws Exception {
        try (CommandBench bench = CommandBench.start(folder).script(MOVE)) {
            Files.writeString(
                    folder.resolve("spoilt.yaml"),
                    Files.readString(Path.of("test-scripts/drives/type-d.yaml"))
                            .replace("wordOrder: low-first", "wordOrder: high-first"));
            String good = Files.readString(bench.site).replaceFirst("(?s).*drive: (\\S+).*", "$1");
            bench.behindNeighbour();
            String both = Files.readString(bench.site);
            int table = both.indexOf("name: TABLE");
            Files.writeString(
                    bench.site,
                    both.substring(0, table) + both.substring(table).replace("drive: " + good, "drive: spoilt.yaml"));

            int code = bench.command(
                    "run",
                    bench.site.toString(),
                    "--axis",
                    "TABLE",
                    "--arm",
                    "TABLE",
                    "--reports",
                    bench.reports().toString());

            assertThat(code).as(bench.output + bench.errors).isEqualTo(3);
            assertThat(bench.output).contains("Link check: 0 of 1 axes proven", "LOCKED TABLE: modelCode");
            assertThat(bench.drive.writes()).as("writes on the wire").isZero();
        }
    }
}
