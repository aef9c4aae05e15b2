package org.axtrial.script;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.evidence.LimitUse;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.NearMiss;
import org.graalvm.polyglot.Value;

/** The word {@code t.limit}, and which of the limits that a trial has taken a criterion is made of. */
final class LimitWords {

    private final WordHost host;
    private final List<LimitInForce> limits;
    private final Conversion conversion;
    private final Map<String, LimitInForce> taken = new LinkedHashMap<>();

    LimitWords(WordHost host, List<LimitInForce> limits, Conversion conversion) {
        this.host = host;
        this.limits = limits;
        this.conversion = conversion;
    }

    /** The word {@code limit}. */
    Object limit(List<Value> values) {
        String name = new Arguments("limit", "t.limit(\"settling\")", values)
                .count(1, 1)
                .text(0, "name");
        List<String> names = limits.stream().map(LimitInForce::name).toList();
        LimitInForce found = limits.stream()
                .filter(limit -> limit.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new ScriptMistake("limit: this trial declares no limit \"" + name + "\"; "
                        + (names.isEmpty()
                                ? "declare it in its options, limits: { " + name + ": [80, \"ms\"] }"
                                : NearMiss.hintOrAll(name, names))));
        taken.put(name, found);
        return new LimitObject(host, found, conversion);
    }

    /**
     * The limits that a criterion is made of. A limit that was spread into value and unit is known again by both,
     * because a script holds nothing else of it then.
     */
    List<LimitUse> usedIn(CriterionObject criterion) {
        List<LimitInForce> handed = criterion.limits();
        return taken.values().stream()
                .filter(limit -> handed.contains(limit)
                        || (handed.isEmpty() && criterion.given().contains(limit.value())))
                .map(LimitInForce::use)
                .toList();
    }
}
