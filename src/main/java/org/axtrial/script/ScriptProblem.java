package org.axtrial.script;

import java.util.Optional;
import org.axtrial.evidence.ScriptPlace;

/**
 * Something that keeps a script from being run.
 *
 * @param script file name under the scripts folder
 * @param place where, if it has a place
 * @param message what is wrong and what to do
 */
public record ScriptProblem(String script, Optional<ScriptPlace> place, String message) {

    /** Place, message and the offending line, each on its own line after the first. */
    public String printed() {
        return place.map(at -> at + ": " + message + "\n    " + at.text()).orElseGet(() -> script + ": " + message);
    }
}
