package org.axtrial.report;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.BudgetTable;

/** Collects the uncertainty budgets of all checks for the appendix and gives each a place there. */
final class Budgets {

    private final List<View.Budget> all = new ArrayList<>();

    /** Where the budget of a check stands; empty for a check that has none. */
    String add(TrialRecord trial, TrialRecord.Attempt attempt, CheckRecord check) {
        CheckRecord.Measured measured = check.measured();
        if (measured.budget().isEmpty() || measured.value().isEmpty()) {
            return "";
        }
        String anchor = "u-" + (all.size() + 1);
        String which = trial.trial() + " on " + trial.axis()
                + (trial.attempts().size() > 1 ? ", attempt " + attempt.attempt() : "");
        BudgetTable table = BudgetTable.of(measured.measurement());
        all.add(new View.Budget(
                anchor,
                which,
                Words.minus(check.name()),
                table.combined(),
                table.freedom(),
                table.coverage(),
                table.expanded(),
                table.rows().stream().map(Budgets::part).toList()));
        return anchor;
    }

    private static View.Budget.Part part(BudgetTable.Row row) {
        return new View.Budget.Part(
                row.name(),
                Words.minus(row.how()),
                row.type(),
                row.distribution(),
                row.spread(),
                row.divisor(),
                row.freedom(),
                row.standard(),
                row.share());
    }

    List<View.Budget> all() {
        return List.copyOf(all);
    }
}
