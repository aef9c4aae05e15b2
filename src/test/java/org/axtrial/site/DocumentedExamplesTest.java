package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The worked examples of the documentation load as they stand, and the documentation names every key. */
class DocumentedExamplesTest {

    private static final Path DOCS = Path.of("docs");

    @TempDir
    Path folder;

    @Test
    void siteExampleLoads() throws IOException, SiteProblemsException {
        Files.createDirectories(folder.resolve("drives"));
        Files.copy(Path.of("test-scripts/drives/type-d.yaml"), folder.resolve("drives/type-d.yaml"));
        Path site = folder.resolve("site/site.yaml");
        Files.createDirectories(folder.resolve("site"));
        Files.writeString(site, example("site-file.md"));

        SiteAxis pusher = SiteFile.load(site).axes().get(0);

        // Source: arithmetic, 800 mm/s over 120 mm times 3 is 20 motor revolutions in a second; the sign is the
        // direction
        assertThat(pusher.setup().scale().toDrive(800, Unit.MILLIMETRE_PER_SECOND, Unit.REVOLUTION_PER_MINUTE))
                .isEqualTo(-1200);
    }

    @Test
    void driveExampleLoads() throws IOException {
        Path drive = Files.writeString(folder.resolve("drive.yaml"), example("drive-description.md"));
        Problems problems = new Problems();

        assertThat(DriveReader.read(drive, problems)).isPresent();
        assertThat(problems.sorted()).isEmpty();
    }

    @Test
    void everyKeyOfTheSchemasIsDocumented() throws IOException {
        for (String part : List.of("site", "drive")) {
            String text = Files.readString(DOCS.resolve(part.equals("site") ? "site-file.md" : "drive-description.md"));
            Set<String> keys = new TreeSet<>();
            collect(new JsonMapper().readTree(SchemaCheck.text(part + ".schema.json")), keys);

            assertThat(keys)
                    .as(part)
                    .isNotEmpty()
                    .allSatisfy(key -> assertThat(Pattern.compile("[`.]" + key + "\\b")
                                    .matcher(text)
                                    .find())
                            .as(key)
                            .isTrue());
        }
    }

    @Test
    void everyUnitIsDocumented() throws IOException {
        List<String> words = Arrays.asList(
                Files.readString(DOCS.resolve("drive-description.md")).split("[\\s`]+"));

        assertThat(words)
                .containsAll(Arrays.stream(Unit.values()).map(Unit::symbol).toList());
    }

    private static void collect(JsonNode node, Set<String> keys) {
        if (node.path("properties").isObject()) {
            keys.addAll(node.path("properties").propertyNames());
        }
        node.forEach(child -> collect(child, keys));
    }

    private static String example(String name) throws IOException {
        String text = Files.readString(DOCS.resolve(name));
        int start = text.indexOf("```yaml\n") + 8;
        return text.substring(start, text.indexOf("```", start));
    }
}
