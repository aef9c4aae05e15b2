package org.axtrial.engine;

import java.util.List;
import org.axtrial.axis.Axis;
import org.axtrial.script.TrialDefinition;

/** Tells each axis which trials of a run prove its sense and scale, so that a refused motion can name them. */
final class FirstMotions {

    private FirstMotions() {}

    /** @param trials what the scripts declare; of these count those that the session is to run */
    static void explain(RunSession session, List<TrialDefinition> trials) {
        for (Axis axis : session.axes()) {
            String name = axis.setup().name();
            List<String> proving = trials.stream()
                    .filter(trial -> trial.proves().isPresent()
                            && trial.isFor(name)
                            && session.wants(trial.script(), trial.id(), name))
                    .map(trial -> trial.id() + " (" + trial.script() + ")")
                    .toList();
            axis.firstMotionUnlockedBy(
                    proving.isEmpty()
                            ? "No trial of this run proves that for " + name
                                    + ": add one that declares proves: \"sense and scale\", before the long moves"
                            : String.join(" or ", proving) + " must pass on " + name + " first");
        }
    }
}
