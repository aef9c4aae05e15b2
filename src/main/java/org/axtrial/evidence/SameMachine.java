package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Tells whether two runs are of one machine, as far as their site files say. */
final class SameMachine {

    /** Facts of the site file that tell one machine from another. */
    private static final List<String> MACHINE = List.of("serial", "type", "name");

    private SameMachine() {}

    /** What differs, for example {@code serial "0001" and "0002"}; empty if nothing shows that they are two. */
    static List<String> differences(RunRecord one, RunRecord other) {
        Map<String, String> was = RunSetup.Fact.map(one.setup().machine());
        Map<String, String> is = RunSetup.Fact.map(other.setup().machine());
        List<String> differences = new ArrayList<>();
        for (String fact : MACHINE) {
            String before = was.getOrDefault(fact, "");
            String now = is.getOrDefault(fact, "");
            if (!before.isEmpty() && !now.isEmpty() && !before.equals(now)) {
                differences.add(fact + " \"" + before + "\" and \"" + now + "\"");
            }
        }
        return differences;
    }
}
