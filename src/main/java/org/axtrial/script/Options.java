package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.graalvm.polyglot.Value;
import org.jspecify.annotations.Nullable;

/** The options of a call; unknown keys and present but undefined values are refused at once. */
final class Options {

    private final Arguments arguments;
    private final String word;
    private final @Nullable Value object;

    Options(Arguments arguments, String word, List<String> known, @Nullable Value object) {
        this.arguments = arguments;
        this.word = word;
        this.object = object;
        if (object != null) {
            for (String key : object.getMemberKeys()) {
                if (!known.contains(key)) {
                    throw new ScriptMistake(word + " has no option \"" + key + "\"; " + NearMiss.hintOrAll(key, known));
                }
                if (object.getMember(key).isNull()) {
                    throw new ScriptMistake(word + ": option " + key + " is " + object.getMember(key)
                            + "; give a value or leave the option out");
                }
            }
        }
    }

    Optional<Value> get(String key) {
        return object == null || !object.hasMember(key) ? Optional.empty() : Optional.of(object.getMember(key));
    }

    Value required(String key, String example) {
        return get(key).orElseThrow(
                        () -> new ScriptMistake(word + ": option " + key + " is missing; write " + example));
    }

    Optional<Quantity> pair(String key) {
        return get(key).map(value -> arguments.pair(value, "option " + key));
    }

    Optional<String> text(String key) {
        return get(key).map(value -> textOf(value, key));
    }

    /** Whether an option is set to true; false if it is left out. */
    boolean flag(String key) {
        Optional<Value> value = get(key);
        if (value.isPresent() && !value.get().isBoolean()) {
            throw new ScriptMistake(
                    word + ": option " + key + " must be true or false but is " + Arguments.shown(value.get()));
        }
        return value.map(Value::asBoolean).orElse(false);
    }

    /** A list of texts or a single one. */
    Optional<List<String>> texts(String key) {
        return get(key).map(value -> {
            if (value.isString()) {
                return List.of(textOf(value, key));
            }
            if (!value.hasArrayElements() || value.getArraySize() == 0) {
                throw new ScriptMistake(word + ": option " + key + " must be a name or a list of names but is "
                        + Arguments.shown(value));
            }
            List<String> texts = new ArrayList<>();
            for (long i = 0; i < value.getArraySize(); i++) {
                texts.add(textOf(value.getArrayElement(i), key));
            }
            return List.copyOf(texts);
        });
    }

    private String textOf(Value value, String key) {
        if (!value.isString() || value.asString().isBlank()) {
            throw new ScriptMistake(
                    word + ": option " + key + " must be a text in quotes but is " + Arguments.shown(value));
        }
        return value.asString();
    }
}
