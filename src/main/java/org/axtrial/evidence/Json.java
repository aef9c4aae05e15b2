package org.axtrial.evidence;

import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Unit;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.JsonParser;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.ValueDeserializer;
import tools.jackson.databind.ValueSerializer;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

/** How evidence is written as JSON: members in the order of declaration, units by symbol, verdicts as printed. */
final class Json {

    static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    // The plain writer uses Double.toString, whose digits differ between Java 17 and later ones.
                    .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .enable(SerializationFeature.INDENT_OUTPUT)
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES, DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .disable(MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
            .addModule(new SimpleModule("axtrial")
                    .addSerializer(Verdict.class, new VerdictWriter())
                    .addDeserializer(Verdict.class, new VerdictReader())
                    .addSerializer(Unit.class, new UnitWriter())
                    .addDeserializer(Unit.class, new UnitReader()))
            .build();

    private Json() {}

    /** The tree of a value, with every string made fit for UTF-8. */
    static ObjectNode tree(Object value) {
        return (ObjectNode) wellFormed(MAPPER.valueToTree(value));
    }

    /**
     * Half of a surrogate pair cannot be written as UTF-8. It is replaced by U+FFFD rather than refused, because a
     * garbled name must not cost the evidence.
     */
    static JsonNode wellFormed(JsonNode node) {
        if (node.isString()) {
            return StringNode.valueOf(wellFormed(node.stringValue()));
        }
        if (node.isArray()) {
            ArrayNode copy = JsonNodeFactory.instance.arrayNode();
            node.forEach(item -> copy.add(wellFormed(item)));
            return copy;
        }
        if (node.isObject()) {
            ObjectNode copy = JsonNodeFactory.instance.objectNode();
            node.forEachEntry((name, value) -> copy.set(wellFormed(name), wellFormed(value)));
            return copy;
        }
        return node;
    }

    static String wellFormed(String text) {
        return text.codePoints()
                .map(c -> c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE ? 0xFFFD : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    private static final class VerdictWriter extends ValueSerializer<Verdict> {
        @Override
        public void serialize(Verdict value, JsonGenerator out, SerializationContext context) throws JacksonException {
            out.writeString(value.printed());
        }
    }

    private static final class VerdictReader extends ValueDeserializer<Verdict> {
        @Override
        public Verdict deserialize(JsonParser in, DeserializationContext context) throws JacksonException {
            String text = in.getString();
            for (Verdict verdict : Verdict.values()) {
                if (verdict.printed().equals(text)) {
                    return verdict;
                }
            }
            throw context.weirdStringException(text, Verdict.class, "not a verdict");
        }
    }

    private static final class UnitWriter extends ValueSerializer<Unit> {
        @Override
        public void serialize(Unit value, JsonGenerator out, SerializationContext context) throws JacksonException {
            out.writeString(value.symbol());
        }
    }

    private static final class UnitReader extends ValueDeserializer<Unit> {
        @Override
        public Unit deserialize(JsonParser in, DeserializationContext context) throws JacksonException {
            String text = in.getString();
            return Unit.of(text).orElseThrow(() -> context.weirdStringException(text, Unit.class, "not a unit"));
        }
    }
}
