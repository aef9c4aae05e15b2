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
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.quantity.NearMiss;
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
        List<Error> errors = schema.validate(document.root()).stream()
                .filter(error -> !error.getEvaluationPath().toString().contains("/oneOf/"))
                .filter(error -> !LEFT_TO_READERS.contains(error.getKeyword()))
                .toList();
        Set<String> misspelt = new HashSet<>();
        for (Error error : errors) {
            if (error.getKeyword().equals("additionalProperties")) {
                NearMiss.find(error.getProperty(), known(owner(error)))
                        .ifPresent(meant -> misspelt.add(YamlDocument.join(path(error.getInstanceLocation()), meant)));
            }
        }
        errors.forEach(error -> tell(document, error, misspelt));
    }

    /** @param misspelt keys that are there under a misspelt name, which is told instead of their absence */
    private void tell(YamlDocument document, Error error, Set<String> misspelt) {
        String path = path(error.getInstanceLocation());
        if (document.complained(path)) {
            return;
        }
        JsonNode owner = owner(error);
        JsonNode found = error.getInstanceNode();
        switch (error.getKeyword()) {
            case "additionalProperties" ->
                document.keyProblem(
                        YamlDocument.join(path, error.getProperty()), unknownKey(error.getProperty(), owner));
            case "required" -> {
                if (!misspelt.contains(YamlDocument.join(path, error.getProperty()))) {
                    document.missing(path, error.getProperty(), missing(error.getProperty(), owner));
                }
            }
            case "type" ->
                document.problem(
                        path, "expected " + noun(owner, property(error)) + ", found " + YamlDocument.describe(found));
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
        if (isRestOfNumber(key)) {
            return "unknown key; if the comma before it is a decimal comma, write a point, such as 2.4 Nm";
        }
        List<String> known = known(owner);
        String hint = NearMiss.hint(key, known);
        return "unknown key" + (hint.isEmpty() ? ";" : hint) + " known here: " + String.join(", ", known);
    }

    /** Between braces a decimal comma ends the value, and the decimals become a key. No key begins with a digit. */
    static boolean isRestOfNumber(String key) {
        return !key.isEmpty() && Character.isDigit(key.charAt(0));
    }

    private static List<String> known(JsonNode owner) {
        return List.copyOf(owner.path("properties").propertyNames());
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

    private String noun(JsonNode owner, JsonNode property) {
        String example = example(property);
        return switch (owner.path("type").asString("")) {
            case "object" -> "a block of keys";
            case "array" -> "a list";
            case "integer" -> "a whole number";
            case "number" -> "a number";
            case "boolean" -> "true or false";
            default ->
                (owner.has("pattern") ? "a value with its unit" : "text in quotes")
                        + (example.isEmpty() ? "" : ", such as " + example);
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

    /** The schema of the key whose value is wrong, which holds the example where the type itself is shared. */
    private JsonNode property(Error error) {
        JsonNode root = schema.getSchemaNode();
        JsonNode node = root;
        JsonNode property = root;
        NodePath path = error.getEvaluationPath();
        for (int i = 0; i < path.getNameCount() - 1; i++) {
            String element = path.getElement(i).toString();
            if (element.equals("$ref")) {
                node = referred(node);
            } else {
                boolean isKey = i > 0 && path.getElement(i - 1).toString().equals("properties");
                node = node.path(element);
                property = isKey ? node : property;
            }
        }
        return property;
    }

    private JsonNode referred(JsonNode object) {
        String name = object.path("$ref").asString().substring("#/$defs/".length());
        return schema.getSchemaNode().path("$defs").path(name);
    }

    /** An annotation of a schema object, its own or that of what it refers to. */
    private JsonNode attribute(JsonNode object, String keyword) {
        if (object.has(keyword) || !object.has("$ref")) {
            return object.path(keyword);
        }
        return attribute(referred(object), keyword);
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
