package org.axtrial.report;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.quantity.Unit;

/** Collects the uncertainty budgets of all checks for the appendix and gives each a place there. */
final class Budgets {

    private final List<View.Budget> all = new ArrayList<>();

    /** Where the budget of a check stands; empty for a check that has none. */
    String add(TrialRecord trial, TrialRecord.Attempt attempt, CheckRecord check) {
        CheckRecord.Measured measured = check.measured();
        if (measured.budget().isEmpty() || measured.value().isEmpty()) {
            return "";
        }
        Unit unit = measured.unit();
        String anchor = "u-" + (all.size() + 1);
        String which = trial.trial() + " on " + trial.axis()
                + (trial.attempts().size() > 1 ? ", attempt " + attempt.attempt() : "");
        all.add(new View.Budget(
                anchor,
                which,
                Words.minus(check.name()),
                Words.uncertainty(measured.standardUncertainty(), unit),
                Words.uncertainty(measured.expandedUncertainty(), unit),
                measured.budget().stream().map(line -> part(line, unit)).toList()));
        return anchor;
    }

    private static View.Budget.Part part(CheckRecord.BudgetLine line, Unit unit) {
        return new View.Budget.Part(
                line.name(),
                Words.minus(line.how()),
                line.evaluation().name(),
                line.degreesOfFreedom().isPresent()
                        ? Long.toString(Math.round(line.degreesOfFreedom().getAsDouble()))
                        : "∞",
                Words.uncertainty(line.standardUncertainty(), unit));
    }

    List<View.Budget> all() {
        return List.copyOf(all);
    }
}
