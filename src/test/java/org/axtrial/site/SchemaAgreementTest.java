package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The published schemas are valid, explain themselves, and know exactly the keys that the loader understands. */
class SchemaAgreementTest {

    private static final JsonMapper JSON = new JsonMapper();
    private static final List<String> SCHEMAS = List.of("site.schema.json", "drive.schema.json", "answers.schema.json");

    @TempDir
    Path folder;

    // Source: https://json-schema.org/draft/2020-12/schema, the meta-schema that the validator carries
    @Test
    void allSchemasAreValidAgainstTheMetaSchema() {
        var metaSchema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));

        for (String name : SCHEMAS) {
            assertThat(metaSchema.validate(SchemaCheck.text(name), InputFormat.JSON))
                    .as(name)
                    .isEmpty();
        }
        assertThat(metaSchema.validate("{\"type\": 5}", InputFormat.JSON)).isNotEmpty();
    }

    @Test
    void everyKeyOfTheSiteSchemaIsUnderstoodAndNoOther() {
        Set<String> asked = new TreeSet<>();
        for (String axis : List.of("TABLE", "SLIDE")) {
            YamlDocument document = document("site.yaml", axis);
            assertThat(SiteFile.read(document)).as("a correct site").isPresent();
            asked.addAll(document.asked());
        }

        assertThat(asked).isEqualTo(keys("site.schema.json"));
    }

    @Test
    void everyKeyOfTheDriveSchemaIsUnderstoodAndNoOther() {
        YamlDocument document = document("drive.yaml", "TABLE");
        assertThat(DriveReader.read(document)).isPresent();

        assertThat(document.asked()).isEqualTo(keys("drive.schema.json"));
    }

    @Test
    void everyKeyIsDescribedForAPersonInAnEditor() {
        for (String name : SCHEMAS) {
            JsonNode root = JSON.readTree(SchemaCheck.text(name));
            List<String> silent = new ArrayList<>();
            walk(root, root, "", (path, property) -> {
                if (!property.has("description") && !refer(root, property).has("description")) {
                    silent.add(path);
                }
            });

            assertThat(silent).as(name).isEmpty();
        }
    }

    @Test
    void everyBlockRefusesStrangeKeys() {
        for (String name : SCHEMAS) {
            JsonNode root = JSON.readTree(SchemaCheck.text(name));
            List<JsonNode> open = new ArrayList<>();
            blocks(root, open);

            assertThat(open).as(name).isEmpty();
        }
    }

    @Test
    void everyKeyOfTheAnswersSchemaIsUnderstoodAndNoOther() {
        Set<String> keys = new TreeSet<>();
        AnswersFile.KEYS.forEach(key -> keys.add("answers[*]." + key));
        keys.add("answers");

        assertThat(keys("answers.schema.json")).isEqualTo(keys);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "true  | { trial: P, axis: X, name: a, value: 1.5, unit: mm }",
                "true  | { kind: reading, trial: P, axis: X, name: a, value: '1,5', unit: mm, attempt: 2 }",
                "true  | { kind: hold, trial: P, axis: X, name: a, by: R. Example }",
                "true  | { kind: witness, trial: P, axis: X, name: a, outcome: nobody came }",
                "true  | { kind: operate, trial: P, axis: X, name: a, outcome: not done, reason: no key }",
                "true  | { kind: retest, trial: P, axis: X, reason: clamp tightened }",
                "false | { kind: retest, trial: P, axis: X, reason: clamp tightened, attempt: 1 }",
                "false | { kind: retest, trial: P, axis: X }",
                "false | { kind: hold, trial: P, axis: X, name: a, value: 1 }",
                "false | { trial: P, axis: X, name: a, value: 1 }",
                "false | { kind: holt, trial: P, axis: X, name: a }"
            })
    void editorAndLoaderAgreeAboutAnAnswer(boolean good, String answer) throws Exception {
        Path file = Files.writeString(folder.resolve("answers.yaml"), "answers:\n  - " + answer + "\n");
        Schema schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(SchemaCheck.text("answers.schema.json"), InputFormat.JSON);

        assertThat(schema.validate(new YAMLMapper().readTree(file.toFile())).isEmpty())
                .isEqualTo(good);
        if (good) {
            assertThat(AnswersFile.load(file, target -> Optional.empty())).isNotNull();
        } else {
            assertThatThrownBy(() -> AnswersFile.load(file, target -> Optional.empty()))
                    .isInstanceOf(AnswersProblemsException.class);
        }
    }

    private static final String ANOTHER_SLIDE = SiteBench.SITE
            .substring(SiteBench.SITE.indexOf("  - name: SLIDE"), SiteBench.SITE.indexOf("target:"))
            .replace("SLIDE", "OTHER")
            .replace("192.0.2.2", "192.0.2.3");

    private YamlDocument document(String file, String axis) {
        Path site = new SiteBench(folder)
                .site("job:", InstrumentFileTest.INSTRUMENTS + "job:")
                .site("name: " + axis, "name: " + axis + "\n    samplePeriod: 5 ms")
                .site(
                        "load: { mass: 10 kg }",
                        "load: { mass: 10 kg }\n      faults: [{ kind: silence, after: 3 }]"
                                + "\n      machineFaults: [{ kind: more friction, factor: 2, after: 3 s }]\n"
                                + ANOTHER_SLIDE
                                + "couplings: [{ kind: gantry beam, axes: [SLIDE, OTHER], stiffness: 100 N/mm }]")
                .drive(
                        "type: Invented",
                        "type: Invented\nwatchdog: { timeout: 1 s, signal: watchdogTime, keepAlive: { signal: lifeSign, values: [0, 1] } }"
                                + "\nsaveCommand: { signal: lifeSign, value: 1, done: 0, within: 2 s }"
                                + "\nclearPeaks: { signal: peakReset, value: 1 }")
                .drive("  position:", "  peakTorque: { address: 113, type: uint16, unit: permille }\n  position:")
                .drive(
                        "parameters:",
                        "parameters:\n  lifeSign: { address: 111, type: uint16, access: write }"
                                + "\n  peakReset: { address: 112, type: uint16, access: write }")
                .write();
        return YamlSource.read(site.resolveSibling(file), new Problems()).orElseThrow();
    }

    private static Set<String> keys(String schema) {
        JsonNode root = JSON.readTree(SchemaCheck.text(schema));
        Set<String> keys = new TreeSet<>();
        walk(root, root, "", (path, property) -> keys.add(path));
        return keys;
    }

    private interface Visitor {
        void visit(String path, JsonNode property);
    }

    private static void walk(JsonNode root, JsonNode node, String path, Visitor visitor) {
        JsonNode object = refer(root, node);
        object.path("properties").properties().forEach(entry -> {
            String below = YamlDocument.join(path, entry.getKey());
            visitor.visit(below, entry.getValue());
            walk(root, entry.getValue(), below, visitor);
        });
        if (object.path("additionalProperties").isObject()) {
            walk(root, object.path("additionalProperties"), YamlDocument.join(path, "*"), visitor);
        }
        if (object.has("items")) {
            walk(root, object.path("items"), path + "[*]", visitor);
        }
    }

    private static JsonNode refer(JsonNode root, JsonNode node) {
        return node.has("$ref") ? root.at(node.path("$ref").asString().substring(1)) : node;
    }

    private static void blocks(JsonNode node, List<JsonNode> open) {
        if (node.path("type").asString("").equals("object") && !node.has("additionalProperties")) {
            open.add(node);
        }
        node.forEach(child -> blocks(child, open));
    }
}
