package org.axtrial.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.evidence.RunSelection;
import org.axtrial.evidence.RunSetup.Fact;

/** Tells on the first page which trials were asked for, and what is not proven because others were not. */
final class SelectionWords {

    private SelectionWords() {}

    static List<Fact> facts(RunSelection selection) {
        List<Fact> facts = new ArrayList<>();
        facts.add(new Fact("Selected by", selection.sentence()));
        facts.add(new Fact("Not run, so not proven", leftOut(selection)));
        if (!selection.notCovered().isEmpty()) {
            facts.add(new Fact("No script for", String.join("; ", selection.notCovered())));
        }
        if (!selection.notes().isEmpty()) {
            facts.add(new Fact("To heed", String.join("; ", selection.notes())));
        }
        return facts;
    }

    /** Trials that were left out, the axes of each together. */
    private static String leftOut(RunSelection selection) {
        Map<String, List<String>> axes = new LinkedHashMap<>();
        selection
                .leftOut()
                .forEach(one -> axes.computeIfAbsent(one.trial(), id -> new ArrayList<>())
                        .add(one.axis()));
        return axes.isEmpty()
                ? "nothing was left out"
                : String.join(
                        "; ",
                        axes.entrySet().stream()
                                .map(entry -> entry.getKey() + " on " + String.join(", ", entry.getValue()))
                                .toList());
    }
}
