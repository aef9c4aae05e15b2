package org.axtrial.script;

import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.quantity.NearMiss;
import org.graalvm.polyglot.PolyglotException;

/** Says in the reader's language what the language runtime says in its own. */
final class ErrorTexts {

    private static final Pattern NOT_DEFINED = Pattern.compile("ReferenceError: (\\S+) is not defined");
    private static final Pattern NOT_EXPORTED =
            Pattern.compile("SyntaxError: The requested module '([^']+)' does not provide an export named '([^']+)'");
    private static final Pattern NO_PROPERTY =
            Pattern.compile("TypeError: Cannot read propert(?:y|ies) '?([^' ]+)'? of (undefined|null)");
    private static final Pattern SYNTAX = Pattern.compile("SyntaxError: \\S+?:\\d+:\\d+ ([^\\n]*)", Pattern.DOTALL);

    private static final Pattern STATEMENTS = Pattern.compile("Statement count limit of (\\d+) exceeded");

    private ErrorTexts() {}

    /**
     * What a script error means and what to do.
     *
     * @param words everything that the module {@code axtrial} exports
     */
    static String of(PolyglotException e, Collection<String> words) {
        String message = String.valueOf(e.getMessage());
        if (e.isResourceExhausted()) {
            Matcher statements = STATEMENTS.matcher(message);
            return statements.find()
                    ? "the script executed more than " + statements.group(1)
                            + " statements and was stopped; look for a loop that does not end"
                    : "the script used up its resources and was stopped: " + message
                            + "; look for a function that calls itself without end";
        }
        Matcher syntax = SYNTAX.matcher(message);
        if (syntax.lookingAt()) {
            return "this is not JavaScript: " + syntax.group(1).strip().replaceFirst("\\beof$", "the end of the file")
                    + "; look at this place and just before it";
        }
        Matcher exported = NOT_EXPORTED.matcher(message);
        if (exported.lookingAt()) {
            return "the module \"" + exported.group(1) + "\" has no word \"" + exported.group(2) + "\""
                    + (exported.group(1).equals(ModuleFiles.BUILT_IN)
                            ? "; " + NearMiss.hintOrAll(exported.group(2), words)
                            : "; export it there, or correct the name");
        }
        Matcher defined = NOT_DEFINED.matcher(message);
        if (defined.lookingAt()) {
            return defined.group(1) + " is not defined; " + remedyForName(defined.group(1), words);
        }
        Matcher property = NO_PROPERTY.matcher(message);
        if (property.lookingAt()) {
            return "\"" + property.group(1) + "\" was asked of a value that is " + property.group(2)
                    + "; check the spelling of what stands before it and whether it was ever set";
        }
        return ofCall(message);
    }

    /** Module and name of an import that names what the module does not have. */
    static Optional<Map.Entry<String, String>> missingExport(String message) {
        Matcher exported = NOT_EXPORTED.matcher(message);
        return exported.lookingAt() ? Optional.of(Map.entry(exported.group(1), exported.group(2))) : Optional.empty();
    }

    private static String ofCall(String message) {
        if (message.startsWith("TypeError: execute on ") || message.startsWith("TypeError: invoke")) {
            return "this cannot be called; only words such as axis.moveBy(…) are followed by parentheses";
        }
        if (message.startsWith("TypeError: instantiate on ")) {
            return "\"new\" does not belong here; call the word without it";
        }
        if (message.startsWith("RangeError: Maximum call stack")) {
            return "a function calls itself without end; give it an end, or use a loop";
        }
        if (message.startsWith("AggregateError")) {
            return "several promises were rejected and nobody handled it; await every asynchronous call";
        }
        return "the script stopped with " + message;
    }

    private static String remedyForName(String name, Collection<String> words) {
        if (words.contains(name)) {
            return "add it to the import: import { " + name + ", … } from \"" + ModuleFiles.BUILT_IN + "\"";
        }
        return switch (name) {
            case "console", "print", "alert" -> "use t.note(\"text\") to write into the record";
            case "setTimeout", "setInterval", "sleep" -> "use axis.dwell(2, \"s\") to wait";
            case "require" -> "use import … from \"./name.js\" at the top of the script";
            case "Java", "Polyglot", "Graal", "process", "fetch", "XMLHttpRequest", "load" ->
                "scripts can reach nothing but the axis; there are no files, network or classes";
            default ->
                NearMiss.find(name, words)
                        .map(word -> "did you mean \"" + word + "\"?")
                        .orElse("check the spelling, or declare it with const");
        };
    }
}
