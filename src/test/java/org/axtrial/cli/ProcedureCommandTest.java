package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.axtrial.evidence.Procedure;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The procedure to agree on, and a run held against it, through the command line. */
@Timeout(240)
class ProcedureCommandTest {

    private static final String SCRIPT = "02-first-motion.js";

    @TempDir
    private Path folder;

    private Path site = Path.of("");
    private Path script = Path.of("");
    private String out = "";
    private String err = "";

    @BeforeEach
    void copyOfTheDemonstration() throws IOException {
        site = DemoCopy.into(folder);
        script = folder.resolve("demo").resolve(SCRIPT);
    }

    private int axtrial(String... words) {
        Called called = Called.with(words);
        out = called.out();
        err = called.err();
        return called.code();
    }

    private Path procedure(String name) {
        Path to = folder.resolve(name);
        assertThat(axtrial("procedure", site.toString(), script.toString(), "--out", to.toString()))
                .as(() -> out + err)
                .isZero();
        return to.resolve(Procedure.FILE);
    }

    private int rehearse(Path agreed) {
        return axtrial(
                "rehearse",
                site.toString(),
                script.toString(),
                "--reports",
                folder.resolve("reports").toString(),
                "--procedure",
                agreed.toString());
    }

    private Path pack() throws IOException {
        try (Stream<Path> packs = Files.list(folder.resolve("reports"))) {
            return packs.findFirst().orElseThrow();
        }
    }

    private void change(Path file, String from, String to) throws IOException {
        String text = Files.readString(file);
        assertThat(text).contains(from);
        Files.writeString(file, text.replace(from, to));
    }

    @Test
    void theDocumentShowsTrialsMotionsSpaceAndCriteria() throws IOException {
        Path file = procedure("agreed");
        Procedure procedure = Procedure.read(file);
        assertThat(procedure.trials())
                .hasSize(3)
                .allMatch(trial -> trial.trial().equals("MOV-01"));
        Procedure.TrialPlan table = procedure.trials().get(0);
        assertThat(table.purpose()).startsWith("The first motion is short and slow.");
        assertThat(table.motions()).hasSize(2);
        // 0.05 rev ordered in the script is 18 degrees.
        assertThat(table.motions().get(0).distance().orElseThrow()).isBetween(17.5, 18.5);
        assertThat(table.space().orElseThrow().highest()).isBetween(17.5, 19.0);
        assertThat(table.checks()).extracting(Procedure.CheckPlan::criterion).contains("at most 80 %");
        String html = Files.readString(file.resolveSibling("procedure.html"));
        assertThat(html)
                .contains("Agreement", "DEMO 4.1", "−25 rev … 25 rev", Sha256.of(file))
                .doesNotContain("<script", "src=\"http");
        assertThat(Files.readAllBytes(file.resolveSibling("procedure.pdf")))
                .startsWith("%PDF".getBytes(StandardCharsets.US_ASCII));
        assertThat(out).contains(Sha256.of(file));
        assertThat(folder.resolve("reports")).doesNotExist();
    }

    @Test
    void theJsonFollowsItsSchema() throws IOException {
        JsonNode json = new JsonMapper().readTree(Files.readAllBytes(procedure("agreed")));
        try (InputStream in = Procedure.class.getResourceAsStream("procedure.schema.json")) {
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8))
                            .validate(json))
                    .isEmpty();
        }
    }

    @Test
    void theSameSiteGivesTheSameBytes() throws IOException {
        assertThat(Files.readAllBytes(procedure("one"))).isEqualTo(Files.readAllBytes(procedure("two")));
    }

    @Test
    void aRunAsAgreedHasTheHashAndNoDeviation() throws IOException {
        Path agreed = procedure("agreed");
        assertThat(rehearse(agreed)).as(() -> out + err).isZero();
        RunRecord record = RunRecord.read(pack());
        assertThat(record.setup().procedure()).contains(Sha256.of(agreed));
        assertThat(record.notes()).isEmpty();
        assertThat(Files.readString(pack().resolve("report.html"))).contains(Sha256.of(agreed));
    }

    @Test
    void aChangedCriterionIsADeviationWithOldAndNew() throws IOException {
        Path agreed = procedure("agreed");
        change(script, "atMost(80, \"%\")", "atMost(90, \"%\")");
        rehearse(agreed);
        assertThat(Files.readString(pack().resolve("report.html")))
                .contains("Deviation from the agreed procedure, file scripts/" + SCRIPT)
                .contains("Peak torque: agreed at most 80 %; now at most 90 %.");
        assertThat(axtrial("verify", pack().toString())).as(() -> out + err).isZero();
    }

    @Test
    void aChangedTrialIsADeviation() throws IOException {
        Path agreed = procedure("agreed");
        change(script, "MOV-01", "MOV-09");
        rehearse(agreed);
        assertThat(RunRecord.read(pack()).notes())
                .extracting(RunRecord.Note::text)
                .anyMatch(note -> note.contains("MOV-01") && note.contains("was agreed and is not in this run"))
                .anyMatch(note -> note.contains("MOV-09") && note.contains("was not agreed"));
    }

    @Test
    void aWrongFileIsRefusedWithOneMessage() {
        assertThat(rehearse(site)).isEqualTo(2);
        assertThat(err).contains("site.yaml is not a procedure", "Nothing has moved");
        assertThat(folder.resolve("reports")).doesNotExist();
    }

    @Test
    void realAxesAreNotContacted() throws IOException {
        try (ServerSocketChannel drive = ServerSocketChannel.open()) {
            drive.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0))
                    .configureBlocking(false);
            int port = drive.socket().getLocalPort();
            change(site, "target: simulated", "target: real");
            change(
                    site,
                    "    envelope:\n      travel: [\"-25 rev",
                    "    firstMotion: { speed: 60 rpm }\n    envelope:\n      travel: [\"-25 rev");
            change(site, "host: 192.0.2.11, port: 502", "host: 127.0.0.1, port: " + port);
            change(site, "host: 192.0.2.12", "host: 127.0.0.1, port: " + port + ", unit: 2");
            change(site, "host: 192.0.2.13", "host: 127.0.0.1, port: " + port + ", unit: 3");
            procedure("agreed");
            assertThat(drive.accept()).isNull();
        }
    }
}
