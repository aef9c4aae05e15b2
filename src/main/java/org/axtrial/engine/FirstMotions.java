package org.axtrial.engine;

import java.util.List;
import java.util.stream.Collectors;
import org.axtrial.axis.Axis;
import org.axtrial.script.TrialDefinition;

/** Tells each axis which trials of a run prove its sense and scale, so that a refused motion can name them. */
final class FirstMotions {

    private FirstMotions() {}

    static void explain(List<TrialDefinition> trials, List<Axis> axes) {
        for (Axis axis : axes) {
            String name = axis.setup().name();
            List<String> proving = trials.stream()
                    .filter(trial -> trial.proves().isPresent() && trial.isFor(name))
                    .map(trial -> trial.id() + " (" + trial.script() + ")")
                    .toList();
            axis.firstMotionUnlockedBy(
                    proving.isEmpty()
                            ? "No trial of this run proves that for " + name
                                    + ": add one that declares proves: \"sense and scale\", before the long moves"
                            : proving.stream().collect(Collectors.joining(" or ")) + " must pass on " + name
                                    + " first");
        }
    }
}
