package org.axtrial.site;

import java.math.BigInteger;
import java.nio.file.Path;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Turns parser nodes into a JSON tree and keeps the place of every key and value. Refuses what hides mistakes. */
final class YamlTree {

    /** An alias inside an alias grows without bound; this many values are far above any site file. */
    private static final int MAX_NODES = 20_000;

    private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

    private final Path file;
    private final Problems problems;
    private final Map<String, YamlPlace> keys = new HashMap<>();
    private final Map<String, YamlPlace> values = new HashMap<>();
    private final Set<Node> open = Collections.newSetFromMap(new IdentityHashMap<>());
    private final Set<String> unreadable = new HashSet<>();
    private int nodes;
    private boolean broken;

    YamlTree(Path file, Problems problems) {
        this.file = file;
        this.problems = problems;
    }

    /** Empty if the tree cannot be followed to its end; duplicate keys alone do not keep it from being checked. */
    Optional<YamlDocument> build(Node top) {
        JsonNode root = convert("", top);
        if (!broken && !root.isObject()) {
            problem("", top, "expected keys and values at the top of the file, found " + YamlDocument.describe(root));
            broken = true;
        }
        return broken
                ? Optional.empty()
                : Optional.of(new YamlDocument(file, root, keys, values, unreadable, problems));
    }

    private JsonNode convert(String path, Node node) {
        values.putIfAbsent(path, place(node));
        if (broken) {
            return JSON.nullNode();
        }
        if (++nodes > MAX_NODES) {
            return stop(path, node, "aliases make this file grow beyond " + MAX_NODES + " values; write it out");
        }
        if (!open.add(node)) {
            return stop(path, node, "an alias here refers to the block it stands in");
        }
        try {
            if (node instanceof MappingNode mapping) {
                return map(path, mapping);
            }
            if (node instanceof SequenceNode sequence) {
                ArrayNode array = JSON.arrayNode();
                for (Node item : sequence.getValue()) {
                    array.add(convert(YamlDocument.join(path, array.size()), item));
                }
                return array;
            }
            return scalar(path, (ScalarNode) node);
        } finally {
            open.remove(node);
        }
    }

    private ObjectNode map(String path, MappingNode mapping) {
        ObjectNode object = JSON.objectNode();
        for (NodeTuple tuple : mapping.getValue()) {
            if (!(tuple.getKeyNode() instanceof ScalarNode keyNode)) {
                problem(path, tuple.getKeyNode(), "a key must be a single word, found a block or a list");
                continue;
            }
            String key = keyNode.getValue();
            String below = YamlDocument.join(path, key);
            YamlPlace first = keys.get(below);
            if (object.has(key) && first != null) {
                problem(
                        below,
                        keyNode,
                        "the key stands here for the second time; it was first given in line " + first.line());
                continue;
            }
            keys.put(below, place(keyNode));
            object.set(key, convert(below, tuple.getValueNode()));
        }
        return object;
    }

    private JsonNode scalar(String path, ScalarNode node) {
        String text = node.getValue();
        Tag tag = node.getTag();
        if (tag.equals(Tag.NULL)) {
            return JSON.nullNode();
        }
        if (tag.equals(Tag.BOOL)) {
            return JSON.booleanNode(text.equalsIgnoreCase("true"));
        }
        if (tag.equals(Tag.INT)) {
            return integer(path, node, text);
        }
        if (tag.equals(Tag.FLOAT)) {
            return decimal(path, node, text);
        }
        if (!tag.equals(Tag.STR)) {
            unreadable(path, node, "the tag " + tag.getValue() + " means nothing here; leave it out");
        }
        return JSON.stringNode(text);
    }

    private JsonNode integer(String path, ScalarNode node, String text) {
        String digits = text.startsWith("+") ? text.substring(1) : text;
        BigInteger value = digits.startsWith("0x")
                ? new BigInteger(digits.substring(2), 16)
                : digits.startsWith("0o") ? new BigInteger(digits.substring(2), 8) : new BigInteger(digits);
        if (value.bitLength() > 63) {
            unreadable(path, node, "expected a number within 64 bits, found " + text);
            return JSON.numberNode(1);
        }
        return JSON.numberNode(value.longValue());
    }

    private JsonNode decimal(String path, ScalarNode node, String text) {
        double value;
        try {
            value = Double.parseDouble(text);
        } catch (NumberFormatException e) {
            value = Double.NaN; // .nan and .inf
        }
        if (!Double.isFinite(value)) {
            unreadable(path, node, "expected a finite number, found " + text);
            return JSON.numberNode(1.0);
        }
        return JSON.numberNode(value);
    }

    private JsonNode stop(String path, Node node, String message) {
        problem(path, node, message);
        broken = true;
        return JSON.nullNode();
    }

    /** A single value that has no meaning; nothing more is said about it. */
    private void unreadable(String path, ScalarNode node, String message) {
        unreadable.add(path);
        problem(path, node, message);
    }

    private void problem(String path, Node node, String message) {
        problems.add(file, path, place(node), message);
    }

    private static YamlPlace place(Node node) {
        return node.getStartMark().map(YamlPlace::of).orElse(YamlPlace.NOWHERE);
    }
}
