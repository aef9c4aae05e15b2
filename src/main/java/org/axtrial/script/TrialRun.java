package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisException;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Verdict;
import org.jspecify.annotations.Nullable;

/**
 * One attempt of one trial on one axis. {@link #run} is called once, by the thread that works the axis; {@link #stop}
 * may be called by any thread at any time.
 */
public final class TrialRun {

    private final ScriptTexts texts;
    private final TrialDefinition definition;
    private final TrialAxes axes;
    private final TrialKey key;
    private final TrialEvents events;
    private final DecisionRule rule;
    private final ReadingSetup readings;
    private final List<LimitInForce> limits;
    private final TrialLatch latch = new TrialLatch();
    /** Held while the trial is broken off from outside, so that its end waits for that. */
    private final ReentrantLock breaking = new ReentrantLock();

    private Optional<String> retestReason = Optional.empty();
    private @Nullable ScriptContext context;
    private boolean over;
    private boolean stoodStill = true;
    private List<String> moving = List.of();
    private List<TrialAxes.Left> leftChanged = List.of();

    TrialRun(
            ScriptTexts texts,
            TrialDefinition definition,
            TrialAxes axes,
            int attempt,
            EvidenceSink sink,
            DecisionRule rule,
            ReadingSetup readings,
            List<LimitInForce> limits) {
        this.rule = rule;
        this.readings = readings;
        this.limits = limits;
        this.texts = texts;
        this.definition = definition;
        this.axes = axes;
        Axis axis = axes.main();
        this.key =
                new TrialKey(definition.script(), definition.id(), axis.setup().name(), attempt);
        this.events = new TrialEvents(sink, key, axis.time());
    }

    public TrialKey key() {
        return key;
    }

    /** Names of the axes that it works: the one on trial, and those that move at once with it. */
    public List<String> axisNames() {
        return axes.names();
    }

    /** Says why the trial is tried again, before it runs. */
    public TrialRun because(Optional<String> reason) {
        retestReason = reason;
        return this;
    }

    /**
     * Runs the trial and ends it on the axis, however it went.
     *
     * @throws EvidenceLostException if something could not be recorded; the axis has been stopped all the same
     */
    public TrialOutcome run() {
        events.started(retestReason);
        Optional<TrialObject> checks = Optional.empty();
        boolean begun = begin();
        try {
            if (begun) {
                checks = work();
            }
            latch.cause().ifPresent(events::broken);
        } finally {
            if (axes.hasBegun()) {
                endOnAxes();
            }
        }
        latch.evidenceLost().ifPresent(lost -> {
            throw lost;
        });
        TrialOutcome outcome = outcome(checks);
        if (begun) {
            unlock(outcome.verdict() == Verdict.PASS);
        }
        events.finished(outcome.verdict(), outcome.reason());
        return outcome;
    }

    private boolean begin() {
        try {
            axes.begin();
            return true;
        } catch (AxisException e) {
            latch.trip(WordHost.verdictOf(e), String.valueOf(e.getMessage()), Optional.empty());
        } catch (InterruptedException e) {
            latch.trip(Verdict.INCONCLUSIVE, "the trial was interrupted before it began", Optional.empty());
        }
        return false;
    }

    private Optional<TrialObject> work() {
        TrialList trials = new TrialList(definition.script());
        TrialClock clock = new TrialClock(definition.limit(), axes.main().time());
        try (ScriptContext script = new ScriptContext(texts, latch, trials, Sandbox.STATEMENT_LIMIT)) {
            WallClockLimit limit = new WallClockLimit(
                    "limit of " + key,
                    definition.limit(),
                    () -> breakOff(Verdict.ERROR, TrialClock.message(definition.limit())));
            try {
                return enter(script) ? body(script, trials, clock, limit) : Optional.empty();
            } finally {
                leave();
                limit.close();
            }
        }
    }

    private Optional<TrialObject> body(ScriptContext script, TrialList trials, TrialClock clock, WallClockLimit limit) {
        script.load(definition.script());
        trials.problems().forEach(problem -> latch.trip(Verdict.ERROR, problem.message(), problem.place()));
        Optional<TrialList.Entry> entry = trials.find(definition.id());
        if (entry.isEmpty()) {
            latch.trip(
                    Verdict.ERROR,
                    "the script no longer declares the trial \"" + definition.id() + "\"; declare it unconditionally",
                    Optional.of(definition.place()));
        }
        if (latch.cause().isPresent() || entry.isEmpty()) {
            return Optional.empty();
        }
        TrialLimit both = new TrialLimit(clock, limit);
        PersonSteps people = new PersonSteps(axes, key, events, both, readings.people());
        List<AxisObject> objects = axes.all().stream()
                .map(axis -> new AxisObject(script.host(), axis, axes, events, clock, people))
                .toList();
        AxisObject axisObject = objects.get(0);
        TrialObject trialObject =
                new TrialObject(script.host(), axisObject, axes.main().setup(), events, rule, limits);
        new ReadingWords(trialObject, axes, key, events, both, readings).offer();
        new PersonWords(trialObject, people).offer();
        new TogetherWords(trialObject, axes, objects, events).offer(axisObject);
        script.run(entry.get(), axisObject, trialObject);
        return Optional.of(trialObject);
    }

    private boolean enter(ScriptContext script) {
        breaking.lock();
        try {
            context = script;
            return latch.cause().isEmpty();
        } finally {
            breaking.unlock();
        }
    }

    private void leave() {
        breaking.lock();
        try {
            over = true;
            context = null;
        } finally {
            breaking.unlock();
        }
        // The interrupt that ended a script must not end the stop of its axis as well.
        boolean unused = Thread.interrupted();
    }

    /**
     * Stops the trial from outside; it ends INCONCLUSIVE unless something broke it before. Bounded in time.
     *
     * @param reason who or what stopped it
     */
    public void stop(String reason) {
        breakOff(Verdict.INCONCLUSIVE, "stopped: " + reason);
    }

    private void breakOff(Verdict verdict, String message) {
        boolean first = latch.trip(verdict, message, Optional.empty());
        breaking.lock();
        try {
            if (over || context == null) {
                return;
            }
            // The axis comes first: a script that hangs moves nothing by itself, an axis may.
            stoodStill &= axes.safeStop(first ? message : "the script went on after the trial was broken");
            context.breakOff();
        } finally {
            breaking.unlock();
        }
    }

    private void endOnAxes() {
        moving = axes.end();
        stoodStill = moving.isEmpty();
        if (!stoodStill) {
            events.broken(new TrialLatch.Cause(Verdict.ERROR, notStanding(), Optional.empty()));
        }
        leftChanged = axes.leftChanged();
        if (!leftChanged.isEmpty()) {
            events.broken(new TrialLatch.Cause(Verdict.ERROR, notPutBack(), Optional.empty()));
        }
    }

    /** A trial that proves sense and scale lets the axis move as its envelope says, or holds it to short, slow motions. */
    private void unlock(boolean passed) {
        if (definition.proves().isPresent() && axes.main().senseAndScale(passed)) {
            events.step(
                    passed
                            ? "Sense and scale are proven: from now on " + key.axis() + " may move as its envelope says"
                            : "Sense and scale are not proven any more: " + key.axis()
                                    + " is held to short, slow motions again",
                    Optional.empty());
        }
    }

    private String notPutBack() {
        return "axis " + names(leftChanged.stream().map(TrialAxes.Left::axis))
                + " may still hold values of this trial: "
                + leftChanged.stream()
                        .map(TrialAxes.Left::change)
                        .map(change ->
                                change.name() + " " + change.printedWritten() + " instead of " + change.printedFound())
                        .collect(Collectors.joining(", "))
                + "; put them back at the drive before it moves again";
    }

    private static String names(Stream<String> axes) {
        return axes.distinct().collect(Collectors.joining(" or "));
    }

    private String notStanding() {
        return "nobody saw axis " + names(moving.isEmpty() ? axes.names().stream() : moving.stream())
                + " stand still after the trial; look at the machine before anything else";
    }

    private TrialOutcome outcome(Optional<TrialObject> checks) {
        List<Verdict> verdicts =
                new ArrayList<>(checks.map(TrialObject::verdicts).orElse(List.of()));
        if (!stoodStill) {
            return new TrialOutcome(key, Verdict.ERROR, notStanding());
        }
        if (!leftChanged.isEmpty()) {
            return new TrialOutcome(key, Verdict.ERROR, notPutBack());
        }
        Optional<TrialLatch.Cause> cause = latch.cause();
        if (cause.isEmpty() && verdicts.isEmpty()) {
            return new TrialOutcome(
                    key, Verdict.INCONCLUSIVE, "no check was made; a trial proves something only by t.check(…)");
        }
        Verdict checked = Verdict.worst(verdicts);
        if (cause.isPresent() && (verdicts.isEmpty() || cause.get().verdict().compareTo(checked) <= 0)) {
            String at = cause.get().place().map(place -> " [" + place + "]").orElse("");
            return new TrialOutcome(key, cause.get().verdict(), cause.get().message() + at);
        }
        return new TrialOutcome(
                key, checked, checks.map(TrialObject::worstReason).orElse(""));
    }
}
