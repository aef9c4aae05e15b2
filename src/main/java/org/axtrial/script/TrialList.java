package org.axtrial.script;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.script.TrialDefinition.Proof;
import org.graalvm.polyglot.Value;

/** Takes the trials that a script declares while it is loaded, and everything that is wrong with them. */
final class TrialList {

    /** The option keys of {@code trial}. */
    static final List<String> OPTIONS =
            List.of("id", "axes", "with", "clause", "number", "tags", "limits", "proves", "limit");

    static final Duration USUAL_LIMIT = Duration.ofMinutes(5);

    private static final String USAGE = "trial(\"Title\", { id: \"POS-01\", axes: \"all\" }, (axis, t) => { … })";
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,59}");
    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_-]{0,39}");
    private static final int LAST_NUMBER = 999;

    private final String script;
    private final List<Entry> entries = new ArrayList<>();
    private final List<ScriptProblem> problems = new ArrayList<>();
    private boolean closed;

    /**
     * A declared trial.
     *
     * @param definition what it says of itself
     * @param body the function that makes it
     */
    record Entry(TrialDefinition definition, Value body) {}

    TrialList(String script) {
        this.script = script;
    }

    /** The word {@code trial}. */
    void add(List<Value> values, Optional<ScriptPlace> place) {
        if (closed) {
            throw new ScriptMistake("trial(…) belongs at the top of a script, not inside a trial");
        }
        try {
            entries.add(read(values, place.orElseGet(() -> new ScriptPlace(script, 1, 1, ""))));
        } catch (ScriptMistake e) {
            // Kept and not thrown, so that the mistakes in the other trials come up in the same message.
            problems.add(new ScriptProblem(script, place, String.valueOf(e.getMessage())));
        }
    }

    private Entry read(List<Value> values, ScriptPlace place) {
        Arguments arguments = new Arguments("trial", USAGE, values).count(3, 3);
        String title = arguments.text(0, "title");
        Options options = arguments.options(1, OPTIONS.toArray(String[]::new));
        String id = options.text("id")
                .orElseThrow(() -> new ScriptMistake("trial \"" + title + "\" has no id; write " + USAGE));
        if (!ID.matcher(id).matches()) {
            throw new ScriptMistake("trial: the id \"" + id
                    + "\" is not fit for a file name; use up to 60 letters, digits, \"-\", \"_\" and \".\"");
        }
        Value body = arguments.value(2);
        if (!body.canExecute()) {
            throw new ScriptMistake("trial \"" + id + "\": the third argument must be a function but is "
                    + Arguments.shown(body) + "; write " + USAGE);
        }
        for (Entry entry : entries) {
            if (entry.definition.id().equals(id)) {
                throw new ScriptMistake("trial: the id \"" + id + "\" is already used in line "
                        + entry.definition.place().line() + "; give each trial an id of its own");
            }
        }
        Optional<List<String>> axes = options.texts("axes").filter(names -> !names.equals(List.of("all")));
        return new Entry(
                new TrialDefinition(
                        script,
                        id,
                        title,
                        axes,
                        options.texts("with").map(names -> with(axes, names)).orElse(List.of()),
                        options.text("clause").orElse(""),
                        number(options),
                        options.texts("tags").map(TrialList::tags).orElse(List.of()),
                        options.get("limits")
                                .map(limits -> limits(arguments, limits))
                                .orElse(Map.of()),
                        options.text("proves").map(TrialList::proof),
                        options.pair("limit")
                                .map(pair -> arguments.duration(pair, "option limit"))
                                .orElse(USUAL_LIMIT),
                        place),
                body);
    }

    /** Axes that move with the one on trial cannot be on trial by the same function, which is for one at a time. */
    private static List<String> with(Optional<List<String>> axes, List<String> names) {
        if (axes.isEmpty()) {
            throw new ScriptMistake(
                    "trial: option with names axes that move at once with the one on trial, so option axes"
                            + " must name that one; write { axes: [\"INFEED\"], with: [\"LIFT\"] }");
        }
        List<String> distinct = names.stream().distinct().toList();
        List<String> both = distinct.stream().filter(axes.get()::contains).toList();
        if (!both.isEmpty() || distinct.size() < names.size()) {
            throw new ScriptMistake("trial: option with names "
                    + String.join(", ", both.isEmpty() ? names : both)
                    + (both.isEmpty() ? ", one of them twice" : ", which option axes names already")
                    + "; name each axis once");
        }
        return distinct;
    }

    private static OptionalInt number(Options options) {
        Optional<Value> value = options.get("number");
        if (value.isEmpty()) {
            return OptionalInt.empty();
        }
        if (!value.get().fitsInInt() || value.get().asInt() < 1 || value.get().asInt() > LAST_NUMBER) {
            throw new ScriptMistake("trial: option number must be a whole number from 1 to " + LAST_NUMBER
                    + ", the number of the trial in the catalogue, but is " + Arguments.shown(value.get()));
        }
        return OptionalInt.of(value.get().asInt());
    }

    private static List<String> tags(List<String> tags) {
        for (String tag : tags) {
            if (tag.contains(",") || !tag.equals(tag.strip())) {
                throw new ScriptMistake("trial: the tag \"" + tag
                        + "\" cannot be chosen on the command line; leave out commas and blanks at its ends");
            }
        }
        return tags.stream().distinct().toList();
    }

    private static Proof proof(String spelling) {
        List<String> known = Arrays.stream(Proof.values()).map(Proof::spelling).toList();
        return Arrays.stream(Proof.values())
                .filter(proof -> proof.spelling().equals(spelling))
                .findFirst()
                .orElseThrow(() -> new ScriptMistake(
                        "trial: option proves is \"" + spelling + "\"; " + NearMiss.hintOrAll(spelling, known)));
    }

    private static Map<String, Quantity> limits(Arguments arguments, Value limits) {
        if (!limits.hasMembers() || limits.hasArrayElements() || limits.canExecute() || limits.isProxyObject()) {
            throw new ScriptMistake(
                    "trial: option limits must be in braces, such as { settling: [80, \"ms\"] }, but is "
                            + Arguments.shown(limits));
        }
        Map<String, Quantity> result = new LinkedHashMap<>();
        for (String name : limits.getMemberKeys()) {
            if (!NAME.matcher(name).matches()) {
                throw new ScriptMistake("trial: \"" + name + "\" is no name for a limit; use a letter, then up to 39"
                        + " letters, digits, \"_\" and \"-\"");
            }
            result.put(name, arguments.pair(limits.getMember(name), "limit " + name));
        }
        return result;
    }

    /** From now on the word {@code trial} is refused. */
    void close() {
        closed = true;
    }

    List<TrialDefinition> definitions() {
        return entries.stream().map(Entry::definition).toList();
    }

    List<ScriptProblem> problems() {
        return List.copyOf(problems);
    }

    Optional<Entry> find(String id) {
        return entries.stream()
                .filter(entry -> entry.definition.id().equals(id))
                .findFirst();
    }
}
