package org.axtrial.site;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A parsed YAML file: its tree, the place of every key and value, and what has been found wrong with it. */
final class YamlDocument {

    private final Path file;
    private final JsonNode root;
    private final Map<String, YamlPlace> keys;
    private final Map<String, YamlPlace> values;
    private final Problems problems;
    private final Set<String> complained = new HashSet<>();
    private final Set<String> asked = new TreeSet<>();

    YamlDocument(
            Path file,
            JsonNode root,
            Map<String, YamlPlace> keys,
            Map<String, YamlPlace> values,
            Set<String> unreadable,
            Problems problems) {
        this.file = file;
        this.root = root;
        this.keys = new HashMap<>(keys);
        this.values = new HashMap<>(values);
        this.problems = problems;
        complained.addAll(unreadable);
    }

    Path file() {
        return file;
    }

    JsonNode root() {
        return root;
    }

    Problems problems() {
        return problems;
    }

    YamlMap top() {
        return new YamlMap(this, "", "", root);
    }

    /** A problem with a value, told where the value stands. */
    void problem(String path, String message) {
        complained.add(path);
        problems.add(file, path, valuePlace(path), message);
    }

    /** A problem with a key, told where the key stands. */
    void keyProblem(String path, String message) {
        complained.add(path);
        problems.add(file, path, keys.getOrDefault(path, valuePlace(path)), message);
    }

    /** A key that is not there, told where the map that ought to hold it begins. */
    void missing(String mapPath, String key, String message) {
        String path = join(mapPath, key);
        complained.add(path);
        problems.add(file, path, keys.getOrDefault(mapPath, valuePlace(mapPath)), message);
    }

    /** Whether something was already said about this very value, so that nothing is said twice. */
    boolean complained(String path) {
        return complained.contains(path);
    }

    /** Whether nothing has been found wrong with this file. */
    boolean isClean() {
        return problems.sorted().stream().noneMatch(problem -> problem.file().equals(file));
    }

    /** Whether something was said about a value or anything in it. */
    boolean complainedWithin(String path) {
        return complained.stream()
                .anyMatch(other -> other.equals(path) || other.startsWith(path + ".") || other.startsWith(path + "["));
    }

    /** Remembers that the loader understands a key; list positions and free names are told as {@code *}. */
    void asked(String pattern) {
        asked.add(pattern);
    }

    /** Every key the loader has asked for so far. */
    Set<String> asked() {
        return asked;
    }

    /** Where a value stands; empty if there is none. */
    Optional<YamlPlace> place(String path) {
        return Optional.ofNullable(values.get(path));
    }

    /** A single value as text; empty string for a block, a list, or nothing. */
    String text(String path) {
        JsonNode node = root;
        for (String key : path.replace("[", ".[").split("\\.", -1)) {
            node = key.startsWith("[")
                    ? node.path(Integer.parseInt(key.substring(1, key.length() - 1)))
                    : node.path(key);
        }
        return node.isValueNode() ? node.asString() : "";
    }

    /** Where a value stands, or the nearest block around it that is there. */
    private YamlPlace valuePlace(String path) {
        for (String at = path; !at.isEmpty(); at = parent(at)) {
            YamlPlace place = values.get(at);
            if (place != null) {
                return place;
            }
        }
        return YamlPlace.TOP;
    }

    private static String parent(String path) {
        return path.substring(0, Math.max(0, Math.max(path.lastIndexOf('.'), path.lastIndexOf('['))));
    }

    static String join(String path, String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    static String join(String path, int index) {
        return path + "[" + index + "]";
    }

    /** How a value is told in a message. */
    static String describe(@Nullable JsonNode node) {
        if (node == null || node.isNull() || node.isMissingNode()) {
            return "nothing";
        }
        if (node.isObject()) {
            return "a block of keys";
        }
        if (node.isArray()) {
            return "a list";
        }
        return node.isString() ? "\"" + node.stringValue() + "\"" : node.toString();
    }
}
