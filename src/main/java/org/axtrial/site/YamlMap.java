package org.axtrial.site;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One block of keys. A value that the schema has complained about, or that is not there, reads as empty: whoever reads
 * on needs no message of its own.
 */
final class YamlMap {

    private final YamlDocument document;
    private final String path;
    /** The path with {@code *} for list positions and free names. */
    private final String pattern;

    private final @Nullable JsonNode node;

    YamlMap(YamlDocument document, String path, String pattern, @Nullable JsonNode node) {
        this.document = document;
        this.path = path;
        this.pattern = pattern;
        this.node = node;
    }

    YamlDocument document() {
        return document;
    }

    String path() {
        return path;
    }

    /** Last part of the path. */
    String name() {
        return path.substring(path.lastIndexOf('.') + 1);
    }

    boolean has(String key) {
        document.asked(YamlDocument.join(pattern, key));
        return node != null && node.has(key);
    }

    /** Whether the block itself is there. */
    boolean isGiven() {
        return node != null && node.isObject();
    }

    private @Nullable JsonNode get(String key) {
        document.asked(YamlDocument.join(pattern, key));
        return node == null || document.complained(YamlDocument.join(path, key)) ? null : node.get(key);
    }

    Optional<String> text(String key) {
        JsonNode value = get(key);
        return value != null && value.isString() ? Optional.of(value.stringValue()) : Optional.empty();
    }

    OptionalLong integer(String key) {
        JsonNode value = get(key);
        return value != null && value.isIntegralNumber() && value.canConvertToLong()
                ? OptionalLong.of(value.longValue())
                : OptionalLong.empty();
    }

    OptionalDouble number(String key) {
        JsonNode value = get(key);
        return value != null && value.isNumber() ? OptionalDouble.of(value.doubleValue()) : OptionalDouble.empty();
    }

    Optional<Boolean> bool(String key) {
        JsonNode value = get(key);
        return value != null && value.isBoolean() ? Optional.of(value.booleanValue()) : Optional.empty();
    }

    /** The block below a key; a block that is not there reads as one without keys. */
    YamlMap map(String key) {
        JsonNode value = get(key);
        return new YamlMap(
                document,
                YamlDocument.join(path, key),
                YamlDocument.join(pattern, key),
                value != null && value.isObject() ? value : null);
    }

    /** The blocks below free names, in file order. */
    Map<String, YamlMap> named(String key) {
        YamlMap all = map(key);
        Map<String, YamlMap> result = new LinkedHashMap<>();
        if (all.node != null) {
            all.node.propertyNames().forEach(name -> {
                JsonNode value = all.node.get(name);
                if (value != null && value.isObject()) {
                    result.put(
                            name,
                            new YamlMap(
                                    document,
                                    YamlDocument.join(all.path, name),
                                    YamlDocument.join(all.pattern, "*"),
                                    value));
                }
            });
        }
        return result;
    }

    /** The texts below free names, in file order. */
    Map<String, String> lines() {
        Map<String, String> result = new LinkedHashMap<>();
        for (String name : keys()) {
            JsonNode value = node == null ? null : node.get(name);
            if (value != null && value.isString() && !document.complained(YamlDocument.join(path, name))) {
                result.put(name, value.stringValue());
            }
        }
        return result;
    }

    /** The keys as they stand in the file. */
    List<String> keys() {
        return node == null ? List.of() : List.copyOf(node.propertyNames());
    }

    /** The blocks of a list. */
    List<YamlMap> blocks(String key) {
        List<YamlMap> result = new ArrayList<>();
        JsonNode list = get(key);
        if (list != null && list.isArray()) {
            for (int i = 0; i < list.size(); i++) {
                JsonNode value = list.get(i);
                if (value.isObject()) {
                    String below = YamlDocument.join(YamlDocument.join(path, key), i);
                    result.add(new YamlMap(document, below, YamlDocument.join(pattern, key) + "[*]", value));
                }
            }
        }
        return result;
    }

    /** The numbers of a list that holds nothing else. */
    List<Double> numbers(String key) {
        List<Double> result = new ArrayList<>();
        JsonNode list = get(key);
        if (list != null && list.isArray() && !document.complainedWithin(YamlDocument.join(path, key))) {
            list.forEach(value -> result.add(value.doubleValue()));
        }
        return result;
    }

    /** The texts of a list, each with its path. */
    Map<String, String> texts(String key) {
        Map<String, String> result = new LinkedHashMap<>();
        JsonNode list = get(key);
        if (list != null && list.isArray()) {
            for (int i = 0; i < list.size(); i++) {
                JsonNode value = list.get(i);
                String below = YamlDocument.join(YamlDocument.join(path, key), i);
                if (value.isString() && !document.complained(below)) {
                    result.put(below, value.stringValue());
                }
            }
        }
        return result;
    }

    /** The whole numbers of a list, each with its path. */
    Map<String, Long> integers(String key) {
        Map<String, Long> result = new LinkedHashMap<>();
        JsonNode list = get(key);
        if (list != null && list.isArray()) {
            for (int i = 0; i < list.size(); i++) {
                JsonNode value = list.get(i);
                String below = YamlDocument.join(YamlDocument.join(path, key), i);
                if (value.isIntegralNumber() && value.canConvertToLong() && !document.complained(below)) {
                    result.put(below, value.longValue());
                }
            }
        }
        return result;
    }

    void problem(String key, String message) {
        document.problem(YamlDocument.join(path, key), message);
    }

    void keyProblem(String key, String message) {
        document.keyProblem(YamlDocument.join(path, key), message);
    }

    void missing(String key, String message) {
        document.missing(path, key, message);
    }
}
