package org.axtrial.script;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.ScriptPlace;

/**
 * One trial as a script declares it.
 *
 * @param script file name under the scripts folder, with slashes
 * @param id unique in its script, fit for a file name
 * @param title what it proves
 * @param axes names of the axes it is for; empty for all
 * @param clause requirement it answers; empty string if none
 * @param limit longest time the trial may take
 * @param place where it is declared
 */
public record TrialDefinition(
        String script,
        String id,
        String title,
        Optional<List<String>> axes,
        String clause,
        Duration limit,
        ScriptPlace place) {

    public TrialDefinition {
        axes = axes.map(List::copyOf);
    }

    /** Whether the trial is for that axis. */
    public boolean isFor(String axis) {
        return axes.isEmpty() || axes.get().contains(axis);
    }
}
