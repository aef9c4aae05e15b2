package org.axtrial.site;

import java.util.Optional;
import org.axtrial.quantity.Quantity;

/**
 * A limit that the site file sets in place of the default of a script. Whether there is such a trial and such a limit
 * only the scripts can tell.
 *
 * @param trial id of the trial
 * @param name name of the limit
 * @param axis the axis it counts for; empty for all
 * @param value the value in force
 * @param place where it stands, with an empty message
 */
public record SiteLimit(String trial, String name, Optional<String> axis, Quantity value, Problem place) {

    /** Something that is wrong with this limit, with file, line and path. */
    public String problem(String message) {
        return new Problem(place.file(), place.path(), place.line(), place.column(), message).toString();
    }
}
