package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.axtrial.evidence.Sha256;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What did not pass in one run is tried again in another, and the first stays as it is. */
@Timeout(240)
class RetestOfCommandTest {

    /** Reads only, so that nothing has to move: one check that fails until it is mended, and one that passes. */
    private static final String FAILING = """
            import { trial, atMost } from "axtrial";
            trial("Stands within the limit", { id: "POS-01", axes: "TURNTABLE" }, (axis, t) => {
              t.check("Position", t.computed(axis.position("rev"), "rev", { from: ["position"], uncertainty: [0.001, "rev"] }), atMost(-1000, "rev"));
            });
            trial("Stands at all", { id: "POS-02", axes: "TURNTABLE" }, (axis, t) => {
              t.check("Position", t.computed(axis.position("rev"), "rev", { from: ["position"], uncertainty: [0.001, "rev"] }), atMost(1000, "rev"));
            });
            """;

    @TempDir
    private Path folder;

    private Path site = Path.of("");
    private Path script = Path.of("");
    private String out = "";
    private String err = "";

    @BeforeEach
    void siteWithOneScript() throws IOException {
        site = DemoCopy.into(folder);
        script = folder.resolve("demo/00-position.js");
        Files.writeString(script, FAILING);
    }

    private int axtrial(String... words) {
        Called called = Called.with(words);
        out = called.out();
        err = called.err();
        return called.code();
    }

    private int run(String reports, String... more) {
        return axtrial(Stream.concat(
                        Stream.of(
                                "run",
                                site.toString(),
                                script.toString(),
                                "--simulated",
                                "--reports",
                                folder.resolve(reports).toString()),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    private Path pack(String reports) throws IOException {
        try (Stream<Path> packs = Files.list(folder.resolve(reports))) {
            return packs.findFirst().orElseThrow();
        }
    }

    private static Map<String, String> hashes(Path pack) throws IOException {
        Map<String, String> hashes = new TreeMap<>();
        try (Stream<Path> files = Files.walk(pack)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                hashes.put(pack.relativize(file).toString(), Sha256.of(file));
            }
        }
        return hashes;
    }

    @Test
    void whatFailedIsTriedAgainAndTheFirstFailureStaysBesideIt() throws IOException {
        assertThat(run("first")).as(() -> out + err).isEqualTo(1);
        Path first = pack("first");
        Map<String, String> before = hashes(first);
        Files.writeString(script, FAILING.replace("-1000", "1000"));
        assertThat(run("second", "--retest-of", first.toString(), "--reason", "limit agreed anew"))
                .as(() -> out + err)
                .isZero();
        assertThat(hashes(first)).isEqualTo(before);
        assertThat(out)
                .contains("Re-test of run " + first.getFileName(), "scripts/00-position.js has changed since run");

        Path second = pack("second");
        JsonNode record = JsonMapper.shared().readTree(second.resolve("record.json"));
        JsonNode earlier = record.path("setup").path("earlier");
        assertThat(record.path("trials").findValuesAsString("trial")).containsExactly("POS-01");
        assertThat(earlier.path("runId").asString())
                .isEqualTo(first.getFileName().toString());
        assertThat(earlier.path("recordSha256").asString()).isEqualTo(Sha256.of(first.resolve("record.json")));
        assertThat(earlier.path("reason").asString()).isEqualTo("limit agreed anew");
        assertThat(record.path("notes").toString()).contains("Deviation of the re-test: scripts/00-position.js");
        try (InputStream schema =
                Objects.requireNonNull(getClass().getResourceAsStream("/org/axtrial/evidence/record.schema.json"))) {
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(schema)
                            .validate(record))
                    .isEmpty();
        }
        assertThat(Files.readString(second.resolve("report.html")))
                .contains("POS-01 on TURNTABLE: passed on attempt 2 of 2; attempt 1 in run " + first.getFileName()
                        + ": FAIL, ");
        assertThat(axtrial("verify", second.toString())).as(() -> out + err).isZero();

        // A re-test of the re-test goes on counting.
        assertThat(run("third", "--retest-of", second.toString(), "--reason", "once more", "--only", "POS-01"))
                .as(() -> out + err)
                .isZero();
        assertThat(Files.readString(pack("third").resolve("report.html")))
                .contains("passed on attempt 3 of 3; attempt 2 in run " + second.getFileName() + ": PASS");
        assertThat(run("fourth", "--retest-of", second.toString(), "--reason", "again"))
                .isEqualTo(3);
        assertThat(err).contains("Zero trials: nothing in run " + second.getFileName());
    }

    @Test
    void withoutAReasonOrWithAnUnknownTrialNothingRuns() throws IOException {
        assertThat(run("first")).isEqualTo(1);
        String first = pack("first").toString();
        assertThat(run("second", "--retest-of", first)).isEqualTo(2);
        assertThat(err).contains("A trial is not tried again without a reason");
        assertThat(run("second", "--retest-of", first, "--reason", "x", "--only", "POS-10"))
                .isEqualTo(2);
        assertThat(err).contains("has no trial \"POS-10\"; did you mean \"POS-01\"?");
        assertThat(run("second", "--retest-of", first, "--reason", "x", "--axis", "TURNTABLE"))
                .isEqualTo(2);
        assertThat(err).contains("leave out --after, --axis, --tag and --clause");
        assertThat(run("second", "--reason", "x")).isEqualTo(2);
        assertThat(err).contains("belong to --retest-of");
        assertThat(run("second", "--retest-of", folder.toString(), "--reason", "x"))
                .isEqualTo(2);
        assertThat(err).contains("holds no record.json");
        Files.writeString(script, FAILING.replace("POS-01", "POS-03"));
        assertThat(run("second", "--retest-of", first, "--reason", "x")).isEqualTo(2);
        assertThat(err).contains("POS-01 on TURNTABLE (00-position.js)");
        assertThat(folder.resolve("second")).doesNotExist();
    }
}
