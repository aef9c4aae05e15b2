package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.sim.WireFault;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Every run on real axes keeps the parameters as it found and as it left them, over real Modbus TCP. */
@Timeout(120)
class FoundAndLeftTest {

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
    }

    @AfterEach
    void stop() {
        bench.close();
    }

    private SnapshotRecord kept(int which) {
        assertThat(bench.record().snapshots())
                .extracting(SnapshotRecord::state)
                .containsExactly(Optional.of(Snapshot.State.FOUND), Optional.of(Snapshot.State.LEFT));
        return bench.record().snapshots().get(which);
    }

    @Test
    void whatARunChangesForGoodIsToldAndReported() throws Exception {
        bench.script("axis.setParameter(\"positionGain\", 55, \"1/s\", { keep: true });");

        bench.run();

        assertThat(kept(0).differences()).isEmpty();
        assertThat(kept(1).differences())
                .containsExactly(new SnapshotRecord.Difference(
                        SnapshotRecord.Kind.CHANGED, "TABLE", "positionGain", "0 1/s", "55 1/s"));
        assertThat(bench.output)
                .contains("Parameters as left: ", "against as found:", "CHANGED  TABLE.positionGain  0 1/s → 55 1/s");
        assertThat(Files.readString(bench.pack().resolve("report.html"))).contains("As found", "As left");
        assertThat(bench.command("verify", bench.pack().toString()))
                .as(bench.output)
                .isZero();
    }

    @Test
    void whatATrialPutsBackIsNoDifference() throws Exception {
        bench.script("axis.setParameter(\"positionGain\", 55, \"1/s\");");

        bench.run();

        assertThat(kept(1).differences()).isEmpty();
        assertThat(bench.output).contains("none differs from as found");
    }

    @Test
    void whatWasThereBeforeTheWorkIsHeldAgainstAsFound() throws Exception {
        bench.script("axis.dwell(0.1, \"s\");");
        Path before = Files.writeString(folder.resolve("before.yaml"), "TABLE: { positionGain: 40 1/s }\n");

        bench.command(
                "run",
                bench.site.toString(),
                "--arm",
                "TABLE",
                "--reports",
                bench.reports().toString(),
                "--against",
                before.toString());

        assertThat(kept(0).against()).contains(before.toString());
        assertThat(kept(0).differences())
                .contains(new SnapshotRecord.Difference(
                        SnapshotRecord.Kind.CHANGED, "TABLE", "positionGain", "40 1/s", "0 1/s"));
        assertThat(bench.output).contains("CHANGED  TABLE.positionGain  40 1/s → 0 1/s");
    }

    @Test
    void aBaselineThatIsNotThereIsRefusedBeforeAnythingIsOpened() throws Exception {
        bench.script("axis.dwell(0.1, \"s\");");

        int code = bench.command("run", bench.site.toString(), "--arm", "TABLE", "--against", "nowhere.json");

        assertThat(code).isEqualTo(2);
        assertThat(bench.errors).contains("--against nowhere.json: there is no such file", "Nothing has moved");
        assertThat(bench.reports()).doesNotExist();
    }

    @Test
    void aRunWhoseLinkIsLostTellsWhatItCouldNotReadAndStillEnds() throws Exception {
        bench.script("axis.enable();\naxis.moveBy(1.5, \"rev\", { speed: [30, \"rpm\"] });");
        // The link check and the parameters take fewer requests than this, the move of three seconds takes more.
        bench.server.fault(
                new WireFault.DropReply(new WireFault.Strikes(WireFault.ANY_FUNCTION, 400, WireFault.WITHOUT_END)));

        bench.run();

        assertThat(kept(1).unreadable()).isPositive();
        assertThat(bench.output).contains("NOT READ TABLE.");
        assertThat(bench.record().ended()).isEqualTo(RunRecord.Ended.COMPLETED);
        assertThat(bench.record().verdict()).isNotEqualTo(Verdict.PASS);
    }
}
