package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What is told of two procedures that differ. */
class ProcedureChangesTest {

    private static Procedure with(String limit, LimitUse.From from, String rule) {
        Procedure.CheckPlan check = new Procedure.CheckPlan(
                "Drift", "drift", "at most " + limit, List.of(new LimitUse("drift", from, limit, Optional.empty())));
        return new Procedure(
                Procedure.FORMAT,
                List.of(),
                List.of(),
                rule,
                List.of(),
                List.of(),
                List.of(),
                1,
                List.of(new Procedure.TrialPlan(
                        "a.js",
                        "A-1",
                        "X",
                        "Rests",
                        "1.1",
                        "",
                        1,
                        Optional.empty(),
                        List.of(),
                        List.of(),
                        List.of(check),
                        "",
                        List.of())));
    }

    @Test
    void equalProceduresHaveNoDeviation() {
        Procedure one = with("8 mm", LimitUse.From.SCRIPT, "rule");
        assertThat(ProcedureChanges.between(one, with("8 mm", LimitUse.From.SCRIPT, "rule")))
                .isEmpty();
    }

    @Test
    void aLimitThatTheSiteNowSetsIsToldWithOldAndNew() {
        assertThat(ProcedureChanges.between(
                        with("8 mm", LimitUse.From.SCRIPT, "rule"), with("9 mm", LimitUse.From.SITE, "rule")))
                .containsExactly(
                        "Deviation from the agreed procedure, criterion of A-1 on X (a.js), Drift: agreed at most 8 mm;"
                                + " now at most 9 mm.",
                        "Deviation from the agreed procedure, limit of A-1 on X (a.js), drift: agreed 8 mm, default of"
                                + " the script; now 9 mm, set by the site file.");
    }

    @Test
    void anotherDecisionRuleIsADeviation() {
        assertThat(ProcedureChanges.between(
                        with("8 mm", LimitUse.From.SCRIPT, "rule A"), with("8 mm", LimitUse.From.SCRIPT, "rule B")))
                .containsExactly("Deviation from the agreed procedure, decision rule: agreed rule A; now rule B.");
    }
}
