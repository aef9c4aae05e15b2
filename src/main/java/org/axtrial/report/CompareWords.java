package org.axtrial.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.RunComparison.CheckChange;
import org.axtrial.evidence.RunComparison.Unmatched;
import org.axtrial.evidence.SnapshotRecord;
import org.axtrial.measure.ValueChange;
import org.axtrial.measure.ValueChange.Outcome;

/** What a comparison says in words, on the page and on the terminal. */
public final class CompareWords {

    private CompareWords() {}

    /** The summary: what became worse, what became better, what moved, what could not be told. */
    public static List<String> sentences(RunComparison c) {
        List<String> all = new ArrayList<>();
        long worse = c.checks().stream()
                .filter(check -> check.is().verdict().compareTo(check.was().verdict()) < 0)
                .count();
        long better = c.checks().stream()
                .filter(check -> check.is().verdict().compareTo(check.was().verdict()) > 0)
                .count();
        long trials =
                c.trials().stream().filter(trial -> trial.was() != trial.is()).count();
        long moved = c.checks().stream().filter(CheckChange::movedInside).count();
        all.add(Words.count(c.checks().size(), "check", "checks") + " of "
                + Words.count(c.trials().size(), "trial", "trials") + " are in both runs.");
        all.add(
                worse + better == 0
                        ? "No check came to another verdict."
                        : "The verdict became worse in " + Words.count(worse, "check", "checks") + " and better in "
                                + Words.count(better, "check", "checks") + ".");
        if (trials > 0) {
            all.add("The verdict of " + Words.count(trials, "trial", "trials") + " changed.");
        }
        all.add(
                moved == 0
                        ? "No value that is inside its limits in both runs moved by more than its uncertainty explains."
                        : Words.count(moved, "value is", "values are")
                                + " inside the limits as before, but moved by more than the uncertainty explains.");
        count(c, all, Outcome.NO_UNCERTAINTY, "differ without an uncertainty to judge the change by");
        count(c, all, Outcome.ONLY_BOUND, "are only a bound in one of both runs");
        count(c, all, Outcome.NO_VALUE, "have no value in one of both runs");
        long limits = c.checks().stream().filter(CheckChange::limitsChanged).count();
        if (limits > 0) {
            all.add("The limits of " + Words.count(limits, "check", "checks") + " changed.");
        }
        int lone = c.onlyInBaseline().size() + c.onlyInRun().size();
        if (lone > 0) {
            all.add(c.onlyInBaseline().size() + " trials or checks are only in the baseline and "
                    + c.onlyInRun().size() + " only in the run; these prove no change.");
        }
        all.add(
                !c.parametersCompared()
                        ? "Not both packs hold a snapshot of the parameters, so these were not compared."
                        : c.parameters().isEmpty()
                                ? "No parameter differs."
                                : Words.count(c.parameters().size(), "parameter differs", "parameters differ") + ".");
        return all;
    }

    private static void count(RunComparison c, List<String> all, Outcome outcome, String what) {
        long number = c.checks().stream()
                .filter(check -> check.change().outcome() == outcome)
                .count();
        if (number > 0) {
            all.add("Checks that " + what + ": " + number + ".");
        }
    }

    /** What the change of one check came to. */
    public static String finding(CheckChange check) {
        String limits = check.limitsChanged() ? "; limits changed" : "";
        return switch (check.change().outcome()) {
            case WITHIN_UNCERTAINTY -> "within the uncertainty" + limits;
            case MOVED -> (check.movedInside() ? "inside the limits but moved" : "moved") + limits;
            case NO_UNCERTAINTY -> "differs; no uncertainty to judge it by" + limits;
            case ONLY_BOUND -> "only a bound, not judged" + limits;
            case NO_VALUE -> "no value to compare" + limits;
        };
    }

    /** Each trial and check that one of both runs lacks. */
    public static List<String> missing(RunComparison c) {
        return Stream.concat(
                        c.onlyInBaseline().stream().map(lone -> "Only in the baseline: " + printed(lone)),
                        c.onlyInRun().stream().map(lone -> "Only in the run: " + printed(lone)))
                .toList();
    }

    private static String printed(Unmatched lone) {
        return lone.trial() + " on " + lone.axis() + " (" + lone.script() + ")"
                + lone.check().map(name -> ", check \"" + name + "\"").orElse("") + ", "
                + lone.verdict().printed();
    }

    /** A share of the tolerance with its sign. */
    public static String share(OptionalDouble share) {
        return share.isEmpty() ? "—" : Words.minus(String.format(Locale.ROOT, "%+.1f %%", 100 * share.getAsDouble()));
    }

    static String error(ValueChange change) {
        return change.normalisedError().isEmpty()
                ? "—"
                : Words.minus(String.format(
                        Locale.ROOT, "%+.2f", change.normalisedError().getAsDouble()));
    }

    /** Each parameter that differs. */
    public static List<String> parameters(RunComparison c) {
        return c.parameters().stream().map(CompareWords::parameter).toList();
    }

    private static String parameter(SnapshotRecord.Difference d) {
        return d.axis() + ", " + d.parameter() + ": "
                + switch (d.kind()) {
                    case CHANGED -> "was " + Words.minus(d.was()) + ", is " + Words.minus(d.is());
                    case ADDED -> "only in the run, " + Words.minus(d.is());
                    case MISSING -> "only in the baseline, " + Words.minus(d.was());
                };
    }
}
