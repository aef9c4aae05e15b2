package org.axtrial.evidence;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A punch item that a script raised while it ran.
 *
 * @param at when
 * @param script file name under the scripts folder
 * @param trial id of the trial that raised it
 * @param axis the axis it was raised on
 * @param text what is to be done
 * @param grade how much it weighs
 * @param owner who has to do it; empty string if nobody was named
 * @param due by when
 * @param place where in the script it stands
 */
public record PunchNote(
        Instant at,
        String script,
        String trial,
        String axis,
        String text,
        PunchClass grade,
        String owner,
        Optional<LocalDate> due,
        Optional<ScriptPlace> place) {

    PunchNote withoutStamps() {
        return new PunchNote(Instant.EPOCH, script, trial, axis, text, grade, owner, due, place);
    }
}
