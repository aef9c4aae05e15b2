package org.axtrial.site;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.path.NodePath;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/**
 * Holds a document against one of the two published schemas and tells each violation in the words of a site file.
 *
 * <p>Violations of {@code pattern} and {@code oneOf} are left to the readers: those keywords serve editors, and the
 * readers say more exactly what is wrong with a quantity, a name or a register place.
 */
final class SchemaCheck {

    static final SchemaCheck SITE = new SchemaCheck("site.schema.json");
    static final SchemaCheck DRIVE = new SchemaCheck("drive.schema.json");

    private static final Set<String> LEFT_TO_READERS = Set.of("pattern", "oneOf");

    private final Schema schema;

    private SchemaCheck(String resource) {
        schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(text(resource), InputFormat.JSON);
    }

    /** The text of a shipped schema. */
    static String text(String resource) {
        try (InputStream in = SchemaCheck.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its part " + resource);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void check(YamlDocument document) {
        for (Error error : schema.validate(document.root())) {
            boolean insideChoice = error.getEvaluationPath().toString().contains("/oneOf/");
            if (!insideChoice && !LEFT_TO_READERS.contains(error.getKeyword())) {
                tell(document, error);
            }
        }
    }

    private void tell(YamlDocument document, Error error) {
        String path = path(error.getInstanceLocation());
        JsonNode owner = owner(error);
        JsonNode found = error.getInstanceNode();
        switch (error.getKeyword()) {
            case "additionalProperties" ->
                document.keyProblem(
                        YamlDocument.join(path, error.getProperty()), unknownKey(error.getProperty(), owner));
            case "required" -> document.missing(path, error.getProperty(), missing(error.getProperty(), owner));
            case "type" ->
                document.problem(path, "expected " + noun(owner) + ", found " + YamlDocument.describe(found));
            case "enum" -> document.problem(path, notOneOf(owner, found));
            case "minimum", "maximum" ->
                document.problem(path, "expected " + range(owner) + ", found " + YamlDocument.describe(found));
            case "minLength" -> document.problem(path, "expected some text, found \"\"");
            case "minItems", "maxItems" ->
                document.problem(path, "expected " + size(owner) + ", found " + found.size());
            default -> document.problem(path, error.getMessage());
        }
    }

    private static String unknownKey(String key, JsonNode owner) {
        List<String> known = List.copyOf(owner.path("properties").propertyNames());
        String hint = NearMiss.hint(key, known);
        return "unknown key" + (hint.isEmpty() ? ";" : hint) + " known here: " + String.join(", ", known);
    }

    private String missing(String key, JsonNode owner) {
        JsonNode property = owner.path("properties").path(key);
        String description = attribute(property, "description").asString("");
        String example = example(property);
        return "missing" + (description.isEmpty() ? "" : ": " + firstSentence(description))
                + (example.isEmpty() ? "" : ", for example " + example);
    }

    private static String firstSentence(String description) {
        int end = description.indexOf(". ");
        String sentence = end < 0 ? description : description.substring(0, end);
        return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    }

    private String example(JsonNode property) {
        JsonNode examples = attribute(property, "examples");
        JsonNode values = examples.isArray() ? examples : attribute(property, "enum");
        return values.isArray() && !values.isEmpty() ? values.get(0).toString() : "";
    }

    private String noun(JsonNode owner) {
        String example = example(owner);
        return switch (owner.path("type").asString("")) {
            case "object" -> "a block of keys";
            case "array" -> "a list";
            case "integer" -> "a whole number";
            case "number" -> "a number";
            case "boolean" -> "true or false";
            default -> "text in quotes" + (example.isEmpty() ? "" : ", such as " + example);
        };
    }

    private static String notOneOf(JsonNode owner, JsonNode found) {
        List<String> known = new ArrayList<>();
        owner.path("enum").forEach(value -> known.add(value.asString()));
        String hint = found.isString() ? NearMiss.hint(found.stringValue(), known) : "";
        return "expected " + known.stream().collect(Collectors.joining(" or ")) + ", found "
                + YamlDocument.describe(found) + hint;
    }

    private static String range(JsonNode owner) {
        return owner.path("minimum") + " … " + owner.path("maximum");
    }

    private static String size(JsonNode owner) {
        int least = owner.path("minItems").asInt(0);
        return owner.path("maxItems").asInt(-1) == least ? least + " entries" : "at least " + least + " entry";
    }

    /** The schema object that holds the violated keyword. */
    private JsonNode owner(Error error) {
        JsonNode node = schema.getSchemaNode();
        NodePath path = error.getSchemaLocation().getFragment();
        for (int i = 0; i < path.getNameCount() - 1; i++) {
            Object element = path.getElement(i);
            node = element instanceof Integer index ? node.path(index) : node.path(element.toString());
        }
        return node;
    }

    /** An annotation of a schema object, its own or that of what it refers to. */
    private JsonNode attribute(JsonNode object, String keyword) {
        if (object.has(keyword) || !object.has("$ref")) {
            return object.path(keyword);
        }
        String name = object.path("$ref").asString().substring("#/$defs/".length());
        return attribute(schema.getSchemaNode().path("$defs").path(name), keyword);
    }

    /** The place of a violation in the spelling of problems. */
    private static String path(NodePath location) {
        String path = "";
        for (int i = 0; i < location.getNameCount(); i++) {
            Object element = location.getElement(i);
            path = element instanceof Integer index
                    ? YamlDocument.join(path, index)
                    : YamlDocument.join(path, element.toString());
        }
        return path;
    }
}
