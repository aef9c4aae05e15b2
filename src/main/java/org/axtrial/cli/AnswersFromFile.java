package org.axtrial.cli;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import org.axtrial.engine.Retests;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialKey;
import org.axtrial.quantity.NearMiss;
import org.axtrial.script.MissingAnswerException;
import org.axtrial.script.MissingReadingException;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.script.TrialDefinition;
import org.axtrial.script.TrialOutcome;
import org.axtrial.site.AnswerKind;
import org.axtrial.site.Answers;
import org.axtrial.site.AnswersFile;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.GivenAnswer;
import org.axtrial.site.PersonAnswer;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;

/** Readings, and what people do, written down in a file before the run. */
final class AnswersFromFile implements Readings, People, Retests {

    private record Which(AnswerKind kind, String trial, String axis, String name, int attempt) {}

    private final Path file;
    private final String operator;
    private final Map<Which, GivenAnswer> readings = new HashMap<>();
    private final Map<Which, PersonAnswer> people = new HashMap<>();
    /** Where each answer stands. */
    private final Map<Which, Integer> lines = new HashMap<>();

    private final Set<Which> used = new HashSet<>();

    private AnswersFromFile(Path file, String operator, Answers given) {
        this.file = file;
        this.operator = operator;
        given.readings().forEach(answer -> {
            Which which = new Which(AnswerKind.READING, answer.trial(), answer.axis(), answer.name(), answer.attempt());
            readings.put(which, answer);
            lines.put(which, answer.line());
        });
        given.people().forEach(answer -> {
            Which which = new Which(answer.kind(), answer.trial(), answer.axis(), answer.name(), answer.attempt());
            people.put(which, answer);
            lines.put(which, answer.line());
        });
    }

    /**
     * Reads a file and holds it against what will be run.
     *
     * @param operator who has read, unless the file says so
     * @throws AnswersProblemsException with everything that is wrong, answers for trials that do not exist among it
     */
    static AnswersFromFile load(Path file, Site site, SiteSession.Scripts scripts, String operator)
            throws AnswersProblemsException {
        return new AnswersFromFile(file, operator, AnswersFile.load(file, answer -> misfit(answer, site, scripts)));
    }

    private static Optional<String> misfit(Answers.Target answer, Site site, SiteSession.Scripts scripts) {
        List<String> axes = site.axes().stream().map(SiteAxis::name).toList();
        List<TrialDefinition> trials = scripts.trials().stream()
                .filter(trial -> trial.id().equals(answer.trial()))
                .toList();
        if (trials.isEmpty()) {
            return Optional.of("no script of this run has a trial \"" + answer.trial() + "\"; "
                    + NearMiss.hintOrAll(
                            answer.trial(),
                            scripts.trials().stream().map(TrialDefinition::id).toList()));
        }
        if (!axes.contains(answer.axis())) {
            return Optional.of(
                    "the site has no axis \"" + answer.axis() + "\"; " + NearMiss.hintOrAll(answer.axis(), axes));
        }
        List<String> on = trials.stream()
                .filter(trial -> trial.isFor(answer.axis()))
                .map(TrialDefinition::script)
                .toList();
        if (on.isEmpty()) {
            return Optional.of("trial " + answer.trial() + " is not for axis " + answer.axis());
        }
        return on.size() == 1
                ? Optional.empty()
                : Optional.of("trial " + answer.trial() + " stands in " + String.join(" and ", on)
                        + ", so this answer could be for either; give one of them another id");
    }

    /** Whether any of the answers is that of a person who did something on the machine. */
    boolean speaksForPeople() {
        return people.keySet().stream().anyMatch(which -> which.kind() != AnswerKind.RETEST);
    }

    @Override
    public synchronized Optional<String> reason(TrialOutcome outcome, BooleanSupplier stopped) {
        TrialKey key = outcome.key();
        Which next = new Which(AnswerKind.RETEST, key.trial(), key.axis(), "", key.attempt() + 1);
        Optional<PersonAnswer> again = Optional.ofNullable(people.get(next));
        again.ifPresent(answer -> used.add(next));
        return again.map(PersonAnswer::reason);
    }

    @Override
    public synchronized Readings.Pending ask(Readings.Request request) {
        Which which = which(AnswerKind.READING, request.key(), request.name());
        GivenAnswer answer = readings.get(which);
        if (answer == null) {
            throw new MissingReadingException(missing(request.what(), which));
        }
        used.add(which);
        return Readings.Pending.at(new Readings.Answer(
                answer.value(),
                answer.temperature(),
                answer.by().isEmpty() ? operator : answer.by(),
                source(answer.line())));
    }

    @Override
    public synchronized People.Pending ask(People.Request request) {
        AnswerKind kind = AnswerKind.valueOf(request.kind().name());
        Which which = which(kind, request.key(), request.text());
        PersonAnswer answer = people.get(which);
        if (answer == null) {
            throw new MissingAnswerException(missing(request.what(), which) + "; write kind: " + kind.word()
                    + " and name: \"" + request.text() + "\"");
        }
        used.add(which);
        PersonPart.Outcome outcome = switch (request.kind()) {
            case HOLD -> answer.positive() ? PersonPart.Outcome.RELEASED : PersonPart.Outcome.REFUSED;
            case WITNESS -> answer.positive() ? PersonPart.Outcome.WITNESSED : PersonPart.Outcome.NOBODY_CAME;
            case OPERATE -> answer.positive() ? PersonPart.Outcome.DONE : PersonPart.Outcome.NOT_DONE;
        };
        // Nobody else may speak for the witness, or for who holds the work.
        boolean operators =
                request.kind() == PersonPart.Kind.OPERATE && answer.by().isEmpty();
        return People.Pending.at(
                new People.Answer(outcome, operators ? operator : answer.by(), answer.reason(), source(answer.line())));
    }

    private static Which which(AnswerKind kind, TrialKey key, String name) {
        return new Which(kind, key.trial(), key.axis(), name, key.attempt());
    }

    private String missing(String what, Which which) {
        List<String> names = lines.keySet().stream()
                .filter(other -> other.kind() == which.kind()
                        && other.trial().equals(which.trial())
                        && other.axis().equals(which.axis())
                        && other.attempt() == which.attempt())
                .map(Which::name)
                .sorted()
                .toList();
        return what + (which.attempt() > 1 ? " for attempt " + which.attempt() : "") + " is missing in " + file
                + NearMiss.hint(which.name(), names);
    }

    private static String words(Which which) {
        return (which.kind() == AnswerKind.RETEST ? "the re-test" : "\"" + which.name() + "\"") + " of "
                + which.trial() + " on " + which.axis()
                + (which.attempt() > 1 ? ", attempt " + which.attempt() : "");
    }

    private String source(int line) {
        return "from " + file.getFileName() + " line " + line;
    }

    /** Answers that no trial of a run has asked for, for the user to look at; what was not to be run asks for nothing. */
    synchronized List<String> unused(RunRecord record) {
        return lines.entrySet().stream()
                .filter(entry -> !used.contains(entry.getKey()))
                .filter(entry -> record.trials().stream()
                        .anyMatch(trial -> trial.trial().equals(entry.getKey().trial())
                                && trial.axis().equals(entry.getKey().axis())))
                .sorted(Map.Entry.comparingByValue())
                .map(entry -> file + ":" + entry.getValue() + ": not used: " + words(entry.getKey()))
                .toList();
    }
}
