package org.axtrial.script;

import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeoutException;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Verdict;
import org.graalvm.polyglot.Context;
import org.graalvm.polyglot.PolyglotException;
import org.graalvm.polyglot.Source;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyExecutable;
import org.graalvm.polyglot.proxy.ProxyObject;

/** One loaded script in a sandbox of its own. Used by one thread, except for {@link #breakOff}. */
final class ScriptContext implements AutoCloseable {

    /** Long enough for a loop to notice, short beside the second in which a script has to end. */
    private static final Duration INTERRUPT_PATIENCE = Duration.ofMillis(200);

    private static final String MODULE = "application/javascript+module";

    private static final String HANDOVER = "__axtrial";

    private final ScriptTexts texts;
    private final TrialLatch latch;
    private final TrialList trials;
    private final Map<String, ProxyExecutable> words = new LinkedHashMap<>();
    private final ModuleFiles files;
    private final Context context;
    private final Places places;
    private final WordHost host;
    private final Value caller;
    private final Value watcher;

    ScriptContext(ScriptTexts texts, TrialLatch latch, TrialList trials, long statementLimit) {
        this.texts = texts;
        this.latch = latch;
        this.trials = trials;
        this.files = new ModuleFiles(texts, builtInModule());
        this.context = Sandbox.open(files, statementLimit);
        this.places = new Places(texts, context);
        this.host = new WordHost(places, latch);
        this.caller = context.eval(Source.create("js", "((body, axis, t, returned) => { returned(body(axis, t)); })"));
        this.watcher = context.eval(Source.create(
                "js", "((promise, settled) => { promise.then(settled, e => { settled(); throw e; }); })"));
        words.put("trial", host.word((values, place) -> {
            trials.add(values, place);
            return null;
        }));
        words.putAll(CriterionWords.of(host));
    }

    /** Everything that the module {@code axtrial} exports. */
    static final List<String> EXPORTS = List.of("trial", "nominal", "atMost", "atLeast", "between");

    private static String builtInModule() {
        StringBuilder text = new StringBuilder("const words = globalThis." + HANDOVER + ";\n");
        for (String word : EXPORTS) {
            text.append("export const ")
                    .append(word)
                    .append(" = words.")
                    .append(word)
                    .append(";\n");
        }
        return text.toString();
    }

    WordHost host() {
        return host;
    }

    /** Evaluates the script, which declares its trials. Whatever goes wrong is latched. */
    void load(String script) {
        guarded(Optional.empty(), () -> {
            Path file = texts.locate(script);
            String text = texts.read(file);
            Value global = context.getBindings("js");
            global.putMember(HANDOVER, ProxyObject.fromMap(new LinkedHashMap<>(words)));
            context.eval(module(
                    "import \"" + ModuleFiles.BUILT_IN + "\";", texts.folder().resolve("_.js")));
            global.removeMember(HANDOVER);
            Value loaded = context.eval(module(text, file));
            boolean[] settled = new boolean[1];
            whenSettled(loaded, () -> settled[0] = true);
            requireSettled(settled[0], "the script", "Remove the await at the top of the script");
        });
        trials.close();
    }

    private static Source module(String text, Path file) {
        return Source.newBuilder("js", file.toFile())
                .content(text)
                .mimeType(MODULE)
                .buildLiteral();
    }

    /** Runs the body of a trial. Whatever goes wrong is latched, also what its forgotten promises still try to do. */
    void run(TrialList.Entry trial, Object axis, Object t) {
        guarded(Optional.of(trial.definition().place()), () -> {
            boolean[] settled = new boolean[1];
            Runnable end = () -> {
                settled[0] = true;
                host.end();
            };
            // Told from within the call, so before the runtime goes on with promises that the body left behind.
            ProxyExecutable returned = values -> {
                whenSettled(values[0], end);
                return null;
            };
            caller.executeVoid(trial.body(), axis, t, returned);
            requireSettled(
                    settled[0],
                    "the trial function",
                    "An await is missing, or a promise is awaited that nothing resolves");
        });
    }

    /**
     * Does something as soon as a value is there: at once, unless it is a promise. A rejection does it as well and stays
     * unhandled, so that the runtime throws it with the place it came from.
     */
    private void whenSettled(Value result, Runnable action) {
        if (result.isProxyObject() || !result.hasMembers() || !result.canInvokeMember("then")) {
            action.run();
            return;
        }
        ProxyExecutable settled = values -> {
            action.run();
            return null;
        };
        watcher.executeVoid(result, settled);
    }

    /** A promise that is still pending would look like a trial that had nothing to complain about. */
    private static void requireSettled(boolean settled, String who, String remedy) {
        if (!settled) {
            throw new ScriptMistake(who + " ended with a pending promise, so nothing after it was run. " + remedy);
        }
    }

    private void guarded(Optional<ScriptPlace> fallback, Runnable action) {
        try {
            action.run();
        } catch (ScriptMistake e) {
            latch.trip(Verdict.ERROR, String.valueOf(e.getMessage()), fallback);
        } catch (PolyglotException e) {
            latchScriptError(e, fallback);
        }
    }

    private void latchScriptError(PolyglotException e, Optional<ScriptPlace> fallback) {
        String message = String.valueOf(e.getMessage());
        // A script may survive a refused import that it tried on purpose; then it broke for another reason.
        Optional<ModuleFiles.Refusal> refusal = files.refusalIn(message);
        if (refusal.isPresent() && latch.cause().isEmpty()) {
            Optional<ScriptPlace> place = places.ofImport(refusal.get().asked());
            latch.trip(Verdict.ERROR, refusal.get().message(), place.isPresent() ? place : fallback);
            return;
        }
        Optional<ScriptPlace> place = ErrorTexts.missingExport(message)
                .flatMap(missing -> places.ofImportedName(missing.getKey(), missing.getValue()))
                .or(() -> places.of(e));
        if (e.isInternalError()) {
            latch.trip(Verdict.ERROR, "the script engine itself failed: " + e.getMessage(), place);
        } else {
            latch.trip(Verdict.ERROR, ErrorTexts.of(e, EXPORTS), place.isPresent() ? place : fallback);
        }
        latch.placeIfUnknown(place.isPresent() ? place : fallback);
    }

    /**
     * Ends whatever the script is doing, from any thread. First by an interrupt, which tells the place; a script that
     * goes on in a {@code finally} is then cancelled, which no code of the script survives.
     */
    void breakOff() {
        try {
            context.interrupt(INTERRUPT_PATIENCE);
        } catch (TimeoutException stillRunning) {
            // The cancellation below needs no consent of the script.
        } catch (IllegalStateException closed) {
            return;
        }
        context.close(true);
    }

    @Override
    public void close() {
        context.close(true);
    }
}
