package org.axtrial.script;

import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import org.axtrial.axis.Axis;
import org.axtrial.axis.Operation;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.PersonPart.Kind;
import org.axtrial.evidence.PersonPart.Outcome;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TrialKey;

/**
 * Steps of a trial that need a person. While one is waited for, the axis is watched like in any dwell, and the limit of the
 * trial stands still.
 */
final class PersonSteps {

    /** Short, so that an answer is taken at once; every sample of it is held against the envelope. */
    private static final Duration SLICE = Duration.ofMillis(200);
    /** A person who is told to act while an axis moves does not act in the same moment (common practice, no source). */
    private static final double REACTION = 1;

    private final TrialAxes axes;
    private final Axis axis;
    private final TrialKey key;
    private final TrialEvents events;
    private final TrialLimit limit;
    private final People people;
    private final Set<List<String>> asked = new HashSet<>();

    PersonSteps(TrialAxes axes, TrialKey key, TrialEvents events, TrialLimit limit, People people) {
        this.axes = axes;
        this.axis = axes.main();
        this.key = key;
        this.events = events;
        this.limit = limit;
        this.people = people;
    }

    /**
     * What is struck on a simulated axis in place of the person.
     *
     * @param faults entries of machineFaults
     */
    record Rehearsal(List<Map<String, Object>> faults) {

        static final Rehearsal NONE = new Rehearsal(List.of());

        Rehearsal {
            faults = List.copyOf(faults);
        }

        void strike(Axis axis) {
            if (axis.isSimulated()) {
                faults.forEach(axis::strike);
            }
        }
    }

    /** Asks, waits for the answer, records it, and ends the trial if it does not let it go on. */
    void ask(Kind kind, String text, Rehearsal rehearsal, Optional<ScriptPlace> place) throws InterruptedException {
        People.Request request = request(kind, text, Optional.empty());
        Instant askedAt = axis.time().instant();
        People.Answer answer;
        try (People.Pending pending = people.ask(request)) {
            answer = await(pending::look);
        }
        if (answer.outcome() == Outcome.DONE) {
            rehearsal.strike(axis);
        }
        told(request, askedAt, answer, place);
    }

    private People.Request request(Kind kind, String text, Optional<String> motion) {
        if (!asked.add(List.of(kind.name(), text))) {
            throw new ScriptMistake(
                    "\"" + text + "\" was asked already in this trial; give each step of a person a text"
                            + " of its own, for example by adding the number of the cycle");
        }
        return new People.Request(key, kind, text, motion, axis.isSimulated());
    }

    /** Nobody can be hurried, so the limits of the trial wait as well; the axis does not go unwatched meanwhile. */
    private <T> T await(Supplier<Optional<T>> look) throws InterruptedException {
        Optional<T> seen = look.get();
        if (seen.isPresent()) {
            return seen.get();
        }
        limit.pause();
        try {
            while (seen.isEmpty()) {
                axes.watch(SLICE);
                seen = look.get();
            }
        } finally {
            limit.resume();
        }
        return seen.get();
    }

    private void told(People.Request request, Instant askedAt, People.Answer answer, Optional<ScriptPlace> place) {
        PersonPart part = new PersonPart(
                request.kind(), request.text(), askedAt, answer.outcome(), answer.by(), answer.words(), answer.how());
        events.step(sentence(part), place, part);
        if (!answer.outcome().goesOn()) {
            throw new MissingAnswerException(
                    request.what() + ": " + outcome(part) + (answer.words().isEmpty() ? "" : ": " + answer.words()));
        }
    }

    /** The step as it reads in the record. */
    static String sentence(PersonPart part) {
        String title = People.title(part.kind());
        return Character.toUpperCase(title.charAt(0)) + title.substring(1) + " \"" + part.request() + "\": "
                + outcome(part) + (part.words().isEmpty() ? "" : ", \"" + part.words() + "\"") + ", " + part.how();
    }

    private static String outcome(PersonPart part) {
        String by = part.by().isEmpty() ? ", person not named" : " by " + part.by();
        return switch (part.outcome()) {
            case RELEASED -> "released" + by;
            case REFUSED -> "release refused" + by;
            case WITNESSED -> "witnessed" + by;
            case NOBODY_CAME -> "no witness came, and the work went on";
            case DONE -> "done" + by;
            case NOT_DONE -> "could not be done" + by;
        };
    }

    /** What a motion returns that a person acts in. */
    @FunctionalInterface
    interface Attended<T> {
        T make(Operation operation) throws InterruptedException;
    }

    /**
     * Lets a person act while a motion goes on, waits for what they say afterwards, and records it.
     *
     * @param motion what the axis does, in words
     * @param longest seconds that the person has
     * @param made takes the motion before what they say about it may end the trial
     */
    <T, R> R during(
            String text,
            String motion,
            double longest,
            Rehearsal rehearsal,
            Optional<ScriptPlace> place,
            Attended<T> order,
            Function<T, R> made)
            throws InterruptedException {
        People.Request request = request(Kind.OPERATE, text, Optional.of(motion));
        Instant askedAt = axis.time().instant();
        R result;
        People.Answer answer;
        try (People.Pending pending = people.ask(request)) {
            boolean unused = await(() -> Optional.of(true).filter(ready -> pending.isReady()));
            Optional<People.Answer> already =
                    pending.look().filter(given -> !given.outcome().goesOn());
            if (already.isPresent()) {
                told(request, askedAt, already.get(), place);
            }
            Acting acting = new Acting(pending, rehearsal, Math.min(REACTION, longest / 2));
            result = made.apply(order.make(acting));
            answer = acting.answer.isPresent() ? acting.answer.get() : await(pending::look);
        }
        told(request, askedAt, answer, place);
        return result;
    }

    /** The person, as the motion sees them. */
    private final class Acting implements Operation {

        private final People.Pending pending;
        private final Rehearsal rehearsal;
        private final double notBefore;
        private Optional<People.Answer> answer = Optional.empty();

        Acting(People.Pending pending, Rehearsal rehearsal, double notBefore) {
            this.pending = pending;
            this.rehearsal = rehearsal;
            this.notBefore = notBefore;
        }

        @Override
        public boolean goesOn(double seconds) {
            if (answer.isEmpty() && seconds >= notBefore) {
                answer = pending.look();
                if (answer.filter(given -> given.outcome() == Outcome.DONE).isPresent()) {
                    rehearsal.strike(axis);
                }
            }
            return answer.filter(given -> given.outcome() == Outcome.NOT_DONE).isEmpty();
        }
    }
}
