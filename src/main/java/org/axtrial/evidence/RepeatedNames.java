package org.axtrial.evidence;

import java.util.LinkedHashMap;
import java.util.Map;

/** Tells the checks of a trial apart by name, those of one name by their order. */
final class RepeatedNames {

    private RepeatedNames() {}

    /** The checks of the attempt that decided, in their order; none without an attempt. */
    static Map<RunComparison.Key, CheckRecord> of(TrialRecord trial) {
        Map<RunComparison.Key, CheckRecord> map = new LinkedHashMap<>();
        trial.deciding().stream().flatMap(attempt -> attempt.checks().stream()).forEach(check -> {
            int occurrence = 1;
            while (map.containsKey(key(trial, check, occurrence))) {
                occurrence++;
            }
            map.put(key(trial, check, occurrence), check);
        });
        return map;
    }

    private static RunComparison.Key key(TrialRecord trial, CheckRecord check, int occurrence) {
        return new RunComparison.Key(trial.script(), trial.trial(), trial.axis(), check.name(), occurrence);
    }
}
