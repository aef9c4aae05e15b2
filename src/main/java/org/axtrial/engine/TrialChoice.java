package org.axtrial.engine;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.axtrial.evidence.RunSelection;
import org.axtrial.quantity.NearMiss;
import org.axtrial.script.TrialDefinition;

/**
 * Which trials are asked for. Within a list any of its words will do; between the lists all must hold. An empty list asks
 * for nothing and leaves nothing out.
 *
 * @param after kinds of work that were done to the machine, by the words of {@code docs/trials.md}
 * @param axes names of axes
 * @param tags tags of trials
 * @param clauses requirements
 */
public record TrialChoice(List<String> after, List<String> axes, List<String> tags, List<String> clauses) {

    private static final MaintenanceTable TABLE = MaintenanceTable.load();
    /** Rank of scripts that keep their order, after all that are always first. */
    private static final int BETWEEN = 1000;

    public TrialChoice {
        after = after.stream().distinct().toList();
        axes = axes.stream().distinct().toList();
        tags = tags.stream().distinct().toList();
        clauses = clauses.stream().distinct().toList();
    }

    /** Whether everything is asked for. */
    public boolean isAll() {
        return after.isEmpty() && axes.isEmpty() && tags.isEmpty() && clauses.isEmpty();
    }

    /** Every word that nothing of the scripts or the site answers to, with the known ones. */
    public List<String> problems(Collection<TrialDefinition> trials, List<String> known) {
        List<String> problems = new ArrayList<>();
        unknown(problems, "--after", after, List.copyOf(TABLE.works().keySet()));
        unknown(problems, "--axis", axes, known);
        unknown(problems, "--tag", tags, words(trials, trial -> trial.tags().stream()));
        unknown(problems, "--clause", clauses, words(trials, trial -> Stream.of(trial.clause())));
        return problems;
    }

    private static List<String> words(
            Collection<TrialDefinition> trials, Function<TrialDefinition, Stream<String>> words) {
        return trials.stream()
                .flatMap(words)
                .filter(word -> !word.isEmpty())
                .distinct()
                .sorted()
                .toList();
    }

    private static void unknown(List<String> problems, String option, List<String> asked, List<String> known) {
        for (String word : asked) {
            if (!known.contains(word)) {
                problems.add(option + ": there is no \"" + word + "\"" + NearMiss.hint(word, known) + "; known: "
                        + (known.isEmpty() ? "none" : String.join(", ", known)));
            }
        }
    }

    /**
     * Chooses.
     *
     * @param trials what the scripts declare, in order
     * @param known all axes of the site, in order
     */
    public RunSelection of(Collection<TrialDefinition> trials, List<String> known) {
        List<RunSelection.Picked> picked = new ArrayList<>();
        List<RunSelection.LeftOut> leftOut = new ArrayList<>();
        for (TrialDefinition trial : trials) {
            for (String axis : known) {
                if (!trial.isFor(axis)) {
                    continue;
                }
                Optional<String> reason = reason(trial, axis);
                if (reason.isPresent()) {
                    picked.add(new RunSelection.Picked(trial.script(), trial.id(), axis, reason.get()));
                } else {
                    leftOut.add(new RunSelection.LeftOut(trial.script(), trial.id(), axis, trial.title()));
                }
            }
        }
        return new RunSelection(by(), picked, leftOut, notCovered(trials, axes.isEmpty() ? known : axes), notes());
    }

    private List<String> by() {
        List<String> by = new ArrayList<>();
        add(by, "after", after);
        add(by, "axis", axes);
        add(by, "tag", tags);
        add(by, "clause", clauses);
        return by;
    }

    private static void add(List<String> by, String kind, List<String> words) {
        if (!words.isEmpty()) {
            by.add(kind + " " + String.join(" or ", words));
        }
    }

    /** Why a trial is chosen on an axis; empty if it is not. */
    private Optional<String> reason(TrialDefinition trial, String axis) {
        List<List<String>> reasons = new ArrayList<>();
        if (!after.isEmpty()) {
            reasons.add(trial.number().isPresent() ? reasons(trial.number().getAsInt()) : List.of());
        }
        if (!axes.isEmpty()) {
            reasons.add(axes.contains(axis) ? List.of("axis " + axis) : List.of());
        }
        if (!tags.isEmpty()) {
            reasons.add(tags.stream()
                    .filter(trial.tags()::contains)
                    .map(tag -> "tag " + tag)
                    .toList());
        }
        if (!clauses.isEmpty()) {
            reasons.add(clauses.contains(trial.clause()) ? List.of("clause " + trial.clause()) : List.of());
        }
        return reasons.stream().anyMatch(List::isEmpty)
                ? Optional.empty()
                : Optional.of(
                        String.join("; ", reasons.stream().flatMap(List::stream).toList()));
    }

    /** Each reason that the table has for a number, after the works that were done. */
    private List<String> reasons(int number) {
        List<String> reasons = new ArrayList<>();
        TABLE.first().part(number).ifPresent(part -> reasons.add("always first: " + part));
        for (String word : after) {
            Optional.ofNullable(TABLE.works().get(word))
                    .flatMap(work -> work.trials().part(number))
                    .ifPresent(part -> reasons.add("after " + word + ": " + part));
        }
        TABLE.last().part(number).ifPresent(part -> reasons.add("always last: " + part));
        return reasons;
    }

    /** Every number that the table asks for after the works that were done. */
    NavigableSet<Integer> numbers() {
        NavigableSet<Integer> numbers = new TreeSet<>();
        if (!after.isEmpty()) {
            TABLE.catalogue().keySet().stream()
                    .filter(number -> !reasons(number).isEmpty())
                    .forEach(numbers::add);
        }
        return numbers;
    }

    private List<String> notCovered(Collection<TrialDefinition> trials, List<String> on) {
        List<String> lines = new ArrayList<>();
        for (int number : numbers()) {
            List<String> without = on.stream()
                    .filter(axis -> trials.stream()
                            .noneMatch(trial -> trial.isFor(axis)
                                    && trial.number().isPresent()
                                    && trial.number().getAsInt() == number))
                    .toList();
            if (!without.isEmpty()) {
                String where = without.size() == on.size() ? "" : " on " + String.join(", ", without);
                lines.add("not covered" + where + ": " + number + named(number));
            }
        }
        return lines;
    }

    private static String named(int number) {
        MaintenanceTable.Entry entry = TABLE.catalogue().get(number);
        if (entry == null) {
            return "";
        }
        return " " + entry.name() + (entry.needs().isEmpty() ? "" : ", needs " + entry.needs());
    }

    private List<String> notes() {
        if (after.isEmpty()) {
            return List.of();
        }
        List<String> notes = new ArrayList<>();
        notes.add(
                "as found and as left: this run reads the parameters before its first and after its last trial. What was"
                        + " there before the work had to be kept before it: hold it against this run (--against, compare)");
        after.stream()
                .flatMap(word -> Optional.ofNullable(TABLE.works().get(word)).stream())
                .map(MaintenanceTable.Work::note)
                .filter(note -> !note.isEmpty())
                .distinct()
                .forEach(notes::add);
        return notes;
    }

    /**
     * Scripts that hold a chosen trial. After maintenance those that are always first come first, by their numbers in the
     * catalogue, which go from looking to the smallest motion, and those that are always last come last; else the order
     * stays.
     */
    List<String> order(List<String> scripts, Collection<TrialDefinition> trials, RunSelection selection) {
        Map<String, Integer> ranks = new LinkedHashMap<>();
        for (String script : scripts) {
            trials.stream()
                    .filter(trial -> trial.script().equals(script)
                            && selection.picked().stream()
                                    .anyMatch(one -> one.script().equals(script)
                                            && one.trial().equals(trial.id())))
                    .mapToInt(this::rank)
                    .reduce(Math::min)
                    .ifPresent(rank -> ranks.put(script, rank));
        }
        return ranks.entrySet().stream()
                .sorted(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .toList();
    }

    private int rank(TrialDefinition trial) {
        if (after.isEmpty() || trial.number().isEmpty()) {
            return BETWEEN;
        }
        int number = trial.number().getAsInt();
        return TABLE.first().all().contains(number)
                ? number
                : TABLE.last().all().contains(number) ? BETWEEN + number : BETWEEN;
    }
}
