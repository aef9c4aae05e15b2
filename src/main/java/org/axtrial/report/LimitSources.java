package org.axtrial.report;

import java.util.stream.Collectors;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.LimitUse;
import org.axtrial.evidence.RunRecord;
import org.axtrial.quantity.Quantity;

/** Says of each check who set its limit: the script or the site file. */
final class LimitSources {

    private final boolean told;

    /** A record of before there were named limits says nothing of them, and neither does its report. */
    LimitSources(RunRecord record) {
        told = record.trials().stream()
                .flatMap(trial -> trial.attempts().stream())
                .flatMap(attempt -> attempt.checks().stream())
                .anyMatch(check -> !check.limits().isEmpty());
    }

    /** One sentence; empty if the record knows of no named limits at all. */
    String sentence(CheckRecord check) {
        if (!told) {
            return "";
        }
        return check.limits().isEmpty()
                ? "Limit: a number in the script."
                : check.limits().stream().map(LimitSources::one).collect(Collectors.joining(" "));
    }

    private static String one(LimitUse limit) {
        return "Limit " + limit.name() + " " + printed(limit.value()) + ": "
                + limit.from().printed()
                + limit.scriptDefault()
                        .map(value -> ", in place of " + printed(value) + " in the script")
                        .orElse("")
                + ".";
    }

    private static String printed(String value) {
        try {
            return Words.minus(Quantity.parse(value).printed());
        } catch (IllegalArgumentException plainNumber) {
            return Words.minus(value);
        }
    }
}
