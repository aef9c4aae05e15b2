package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.quantity.NearMiss;

/**
 * What a script holds. Either list may be empty; a script with problems must not be run.
 *
 * @param script file name under the scripts folder
 * @param trials trials in the order of the script
 * @param problems everything that is wrong with it
 */
public record Discovery(String script, List<TrialDefinition> trials, List<ScriptProblem> problems) {

    public Discovery {
        trials = List.copyOf(trials);
        problems = List.copyOf(problems);
    }

    /** The same with a problem for every trial that names an axis which does not exist. */
    public Discovery on(List<String> axes) {
        List<ScriptProblem> all = new ArrayList<>(problems);
        for (TrialDefinition trial : trials) {
            List<String> named = new ArrayList<>(trial.axes().orElse(List.of()));
            named.addAll(trial.with());
            for (String wanted : named) {
                if (!axes.contains(wanted)) {
                    all.add(new ScriptProblem(
                            script,
                            Optional.of(trial.place()),
                            "trial \"" + trial.id() + "\" is for axis \"" + wanted
                                    + "\", which the site file does not have; " + NearMiss.hintOrAll(wanted, axes)));
                }
            }
        }
        return new Discovery(script, trials, all);
    }
}
