package org.axtrial.cli;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.TrialKey;
import org.axtrial.quantity.NearMiss;
import org.axtrial.script.MissingReadingException;
import org.axtrial.script.Readings;
import org.axtrial.script.TrialDefinition;
import org.axtrial.site.AnswersFile;
import org.axtrial.site.AnswersProblemsException;
import org.axtrial.site.GivenAnswer;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;

/** Readings that were written down in a file before the run. */
final class AnswersFromFile implements Readings {

    private record Which(String trial, String axis, String name) {}

    private final Path file;
    private final String operator;
    private final Map<Which, GivenAnswer> answers = new HashMap<>();
    private final Set<Which> used = new HashSet<>();

    private AnswersFromFile(Path file, String operator, List<GivenAnswer> given) {
        this.file = file;
        this.operator = operator;
        given.forEach(answer -> answers.put(new Which(answer.trial(), answer.axis(), answer.name()), answer));
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

    private static Optional<String> misfit(GivenAnswer answer, Site site, SiteSession.Scripts scripts) {
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

    @Override
    public synchronized Pending ask(Request request) {
        TrialKey key = request.key();
        Which which = new Which(key.trial(), key.axis(), request.name());
        GivenAnswer answer = answers.get(which);
        if (answer == null) {
            List<String> names = answers.keySet().stream()
                    .filter(other ->
                            other.trial().equals(key.trial()) && other.axis().equals(key.axis()))
                    .map(Which::name)
                    .sorted()
                    .toList();
            throw new MissingReadingException(
                    request.what() + " is missing in " + file + NearMiss.hint(request.name(), names));
        }
        used.add(which);
        return Pending.at(new Answer(
                answer.value(),
                answer.temperature(),
                answer.by().isEmpty() ? operator : answer.by(),
                "from " + file.getFileName() + " line " + answer.line()));
    }

    /** Answers that nobody has asked for, for the user to look at. */
    synchronized List<String> unused() {
        return answers.entrySet().stream()
                .filter(entry -> !used.contains(entry.getKey()))
                .map(Map.Entry::getValue)
                .sorted((one, other) -> Integer.compare(one.line(), other.line()))
                .map(answer -> file + ":" + answer.line() + ": not used: \"" + answer.name() + "\" of " + answer.trial()
                        + " on " + answer.axis())
                .toList();
    }
}
