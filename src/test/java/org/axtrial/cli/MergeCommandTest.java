package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Packs of several runs put together, through the command line. */
@Timeout(300)
class MergeCommandTest {

    private static final String FAILS = """
            const rest = axis.dwell(0.1, 's');
            t.check('Impossible', rest.drift(), nominal(1, 'rev').plusMinus(0.1, 'rev'));""";

    private static final String PASSES = """
            const rest = axis.dwell(0.1, 's');
            t.check('Drift', rest.drift(), atMost(0.1, 'rev'));""";

    private static final JsonMapper JSON = new JsonMapper();

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
    }

    @AfterEach
    void end() throws Exception {
        bench.close();
    }

    private int merge(String to, Path... packs) {
        Stream<String> from = Stream.of(packs).map(Path::toString);
        return bench.command(
                Stream.concat(Stream.of("merge", "-o", at(to)), from).toArray(String[]::new));
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private Map<String, String> merged(String to, Path... packs) throws IOException {
        assertThat(merge(to, packs)).as(bench.errors).isZero();
        return CommandBench.files(folder.resolve(to));
    }

    @Test
    void neitherOrderNorBracketsNorRepetitionMatter() throws Exception {
        Path a = bench.runAs("a", FAILS, 1);
        Path b = bench.runAs("b", PASSES, 0);
        Path c = bench.runAs("c", PASSES, 0);
        assertThat(bench.command("punch", c.toString(), "--add", "Label", "--class", "C", "--by", "A. Sample"))
                .isZero();
        Map<String, String> ab = merged("ab", a, b);
        assertThat(merged("ba", b, a)).isEqualTo(ab);
        assertThat(merged("aba", a, b, a)).isEqualTo(ab);
        assertThat(merged("ab-a", folder.resolve("ab"), a)).isEqualTo(ab);
        assertThat(merge("bc", b, c)).isZero();
        Map<String, String> abc = merged("ab-c", folder.resolve("ab"), c);
        assertThat(merged("a-bc", a, folder.resolve("bc"))).isEqualTo(abc);
        assertThat(merged("cba", c, b, a)).isEqualTo(abc);
        // One pack alone stays one.
        assertThat(merged("aa", a, a)).isEqualTo(merged("a1", a));
    }

    @Test
    void keepsEveryAttemptAndEveryByteAndVerifies() throws Exception {
        Path a = bench.runAs("a", FAILS, 1);
        Path b = bench.runAs("b", PASSES, 0);
        Map<String, String> merged = merged("m", b, a);
        assertThat(bench.output).startsWith("ACCEPTED").contains("t.js");
        JsonNode record = JSON.readTree(Files.readAllBytes(folder.resolve("m/merged.json")));
        for (int i = 0; i < 2; i++) {
            String id = record.at("/sources/" + i + "/runId").stringValue();
            Path source = id.equals(idOf(a)) ? a : b;
            assertThat(idOf(source)).isEqualTo(id);
            CommandBench.files(source)
                    .forEach((name, hash) -> assertThat(merged).containsEntry("sources/" + id + "/" + name, hash));
        }
        assertThat(record.at("/trials")).hasSize(1);
        assertThat(record.at("/trials/0/attempts")).hasSize(2);
        assertThat(record.at("/trials/0/attempts/0/verdict").stringValue()).isEqualTo("FAIL");
        assertThat(record.at("/trials/0/attempts/1/verdict").stringValue()).isEqualTo("PASS");
        assertThat(record.at("/trials/0/decidedBy").stringValue()).isEqualTo(idOf(b));
        assertThat(record.at("/lastRunEnded").stringValue())
                .isEqualTo(JSON.readTree(Files.readAllBytes(b.resolve("record.json")))
                        .at("/stamps/finishedAt")
                        .stringValue());
        // The schema is held by a general validator of JSON Schema 2020-12.
        try (InputStream in = MergeCommandTest.class.getResourceAsStream("/org/axtrial/evidence/merged.schema.json")) {
            Schema schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            assertThat(schema.validate(record)).isEmpty();
        }
        assertThat(Files.readString(folder.resolve("m/report.html"))).contains(idOf(a), idOf(b), "decides");
        assertThat(bench.command("verify", at("m"))).as(bench.output).isZero();
        assertThat(bench.output).endsWith("The merged folder VERIFIES.\n");
    }

    private static String idOf(Path pack) throws IOException {
        return JSON.readTree(Files.readAllBytes(pack.resolve("record.json")))
                .at("/stamps/runId")
                .stringValue();
    }

    @Test
    void eachChangedMissingOrAddedFileIsNamed() throws Exception {
        Path a = bench.runAs("a", FAILS, 1);
        Path b = bench.runAs("b", PASSES, 0);
        List<String> names = List.copyOf(merged("m", a, b).keySet());
        Path m = folder.resolve("m");
        Random random = new Random(20261127);
        for (int i = 0; i < 12; i++) {
            String name = names.get(random.nextInt(names.size()));
            Path file = m.resolve(name);
            byte[] bytes = Files.readAllBytes(file);
            byte[] changed = bytes.clone();
            changed[random.nextInt(changed.length)] ^= (byte) (1 + random.nextInt(255));
            Files.write(file, changed);
            assertThat(bench.command("verify", m.toString())).as(name).isEqualTo(5);
            assertThat(bench.output).contains(name).endsWith("The merged folder DOES NOT VERIFY.\n");
            Files.delete(file);
            assertThat(bench.command("verify", m.toString())).as(name).isEqualTo(5);
            assertThat(bench.output).contains(name);
            Files.write(file, bytes);
        }
        for (String name : List.of("more.txt", "sources/more.txt", "signatures/01-tester.json", "after/ledger.jsonl")) {
            Path file = m.resolve(name);
            Files.createDirectories(file.resolveSibling("."));
            Files.writeString(file, "x");
            assertThat(bench.command("verify", m.toString())).as(name).isEqualTo(5);
            assertThat(bench.output).contains("  " + name + ": ADDED");
            Files.delete(file);
        }
        assertThat(bench.command("verify", m.toString())).as(bench.output).isZero();
    }

    @Test
    void whatDoesNotBelongTogetherIsRefusedAndNothingIsWritten() throws Exception {
        Path a = bench.runAs("a", PASSES, 0);
        Path other = folder.resolve("other");
        CommandBench.copy(a, other);
        assertThat(bench.command("punch", other.toString(), "--add", "Label", "--class", "C", "--by", "A. Sample"))
                .isZero();
        assertThat(merge("m", a, other)).isEqualTo(5);
        assertThat(bench.errors).contains("are both run " + idOf(a) + " and differ in after/ledger.jsonl");
        Path record = other.resolve("record.json");
        Files.writeString(record, Files.readString(record).replace("PASS", "FAIL"));
        assertThat(merge("m", a, other)).isEqualTo(5);
        assertThat(bench.errors).contains("other does not verify, so nothing was merged");
        Files.writeString(bench.site, "machine: { name: Another table }\n" + Files.readString(bench.site));
        Path another = bench.runAs("another", PASSES, 0);
        assertThat(merge("m", a, another)).isEqualTo(2);
        assertThat(bench.errors).contains("tell of different machines: (nothing told) and name Another table");
        assertThat(bench.command("rehearse", bench.site.toString(), "--reports", at("rehearsed")))
                .isZero();
        try (Stream<Path> made = Files.list(folder.resolve("rehearsed"))) {
            assertThat(merge("m", another, made.findFirst().orElseThrow())).isEqualTo(2);
        }
        assertThat(bench.errors).contains("one is simulated and one is real");
        assertThat(merge("a", a)).isEqualTo(2);
        assertThat(bench.errors).contains("is already there; give a new name");
        assertThat(merge("a/m", a)).isEqualTo(2);
        assertThat(bench.errors).contains("which would no longer verify");
        assertThat(merge("m", folder.resolve("none"))).isEqualTo(2);
        assertThat(bench.errors).contains("there is no folder");
        assertThat(folder.resolve("m")).doesNotExist();
        assertThat(folder.resolve("m.part")).doesNotExist();
    }
}
