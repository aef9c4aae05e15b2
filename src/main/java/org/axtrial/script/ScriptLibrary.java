package org.axtrial.script;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Verdict;

/** The scripts of one folder: finds the trials in them and runs them. Used by several threads. */
public final class ScriptLibrary {

    /** Declaring trials takes milliseconds; a script that is busy for longer while it is loaded does something else. */
    private static final Duration LOAD_LIMIT = Duration.ofSeconds(10);

    private static final long LOAD_STATEMENT_LIMIT = 5_000_000;

    private final ScriptTexts texts;
    private final DecisionRule rule;
    private final ReadingSetup readings;
    private final LimitTable limits;

    /** Scripts whose checks are judged by simple acceptance. */
    public ScriptLibrary(Path scriptsFolder) {
        this(scriptsFolder, DecisionRule.SIMPLE);
    }

    /**
     * Scripts whose checks are judged by a rule.
     *
     * @param scriptsFolder the folder that all scripts and their modules lie in
     * @throws IllegalArgumentException if there is no such folder
     */
    public ScriptLibrary(Path scriptsFolder, DecisionRule rule) {
        this(new ScriptTexts(scriptsFolder), rule, ReadingSetup.NONE, LimitTable.NONE);
    }

    private ScriptLibrary(ScriptTexts texts, DecisionRule rule, ReadingSetup readings, LimitTable limits) {
        this.texts = texts;
        this.rule = rule;
        this.readings = readings;
        this.limits = limits;
    }

    /** The same scripts with something to read beside the drives. */
    public ScriptLibrary withReadings(ReadingSetup setup) {
        return new ScriptLibrary(texts, rule, setup, limits);
    }

    /** The same scripts with limits that a site sets in place of their defaults. */
    public ScriptLibrary withLimits(LimitTable table) {
        return new ScriptLibrary(texts, rule, readings, table);
    }

    /** The limits of a trial as they count on an axis. */
    public List<LimitInForce> limits(TrialDefinition trial, String axis) {
        return limits.of(trial, axis);
    }

    /** The real path of the scripts folder. */
    public Path folder() {
        return texts.folder();
    }

    /** Names of the scripts under a folder, sorted; what begins with {@code _} is a module and not a script. */
    public List<String> scriptsUnder(Path directory) {
        return texts.scriptsUnder(directory);
    }

    /** The name of a script file in records and messages, or empty if it is not there or lies outside the folder. */
    public Optional<String> nameOf(Path file) {
        try {
            Path real = file.toRealPath();
            return real.startsWith(texts.folder()) ? Optional.of(texts.nameOf(real)) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** Every script and module read so far: what belongs into the evidence. */
    public List<Path> filesRead() {
        return texts.filesRead();
    }

    /**
     * Loads a script without an axis, so that nothing can move, and lists its trials.
     *
     * @param script name under the scripts folder, with slashes
     */
    public Discovery discover(String script) {
        TrialLatch latch = new TrialLatch();
        TrialList trials = new TrialList(script);
        try (ScriptContext context = new ScriptContext(texts, latch, trials, LOAD_STATEMENT_LIMIT)) {
            WallClockLimit limit = new WallClockLimit("loading " + script, LOAD_LIMIT, () -> {
                latch.trip(
                        Verdict.ERROR,
                        "loading the script took longer than " + LOAD_LIMIT.toSeconds()
                                + " s; declare the trials and do the work inside them",
                        Optional.empty());
                context.breakOff();
            });
            try {
                context.load(script);
            } finally {
                limit.close();
            }
        }
        List<ScriptProblem> problems = new ArrayList<>(trials.problems());
        latch.cause().ifPresent(cause -> problems.add(new ScriptProblem(script, cause.place(), cause.message())));
        if (problems.isEmpty() && trials.definitions().isEmpty()) {
            problems.add(new ScriptProblem(
                    script,
                    Optional.empty(),
                    "the script declares no trial; declare one with trial(…), or let the name"
                            + " begin with \"_\" if it is a module"));
        }
        return new Discovery(script, trials.definitions(), problems);
    }

    /**
     * Prepares one attempt of a trial.
     *
     * @param trial as {@link #discover} found it
     * @param attempt 1 for the first try
     * @param sink takes everything that happens
     */
    public TrialRun prepare(TrialDefinition trial, Axis axis, int attempt, EvidenceSink sink) {
        return prepare(trial, axis, List.of(), attempt, sink);
    }

    /**
     * Prepares one attempt of a trial in which other axes move at once with the one on trial.
     *
     * @param others the axes that {@link TrialDefinition#with} names
     */
    public TrialRun prepare(TrialDefinition trial, Axis axis, List<Axis> others, int attempt, EvidenceSink sink) {
        return new TrialRun(
                texts,
                trial,
                new TrialAxes(axis, others),
                attempt,
                sink,
                rule,
                readings,
                limits.of(trial, axis.setup().name()));
    }
}
