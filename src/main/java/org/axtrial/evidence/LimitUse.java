package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;

/**
 * A named limit of a trial that a criterion was made of.
 *
 * @param name as the script declares it
 * @param from who set the value that was in force
 * @param value value in force with its unit, as files and scripts spell it
 * @param scriptDefault what the script would have taken, where the site file says otherwise
 */
public record LimitUse(
        String name,
        From from,
        String value,
        @JsonInclude(NON_ABSENT) Optional<String> scriptDefault) {

    /** Who set the value of a limit. */
    public enum From {
        /** The default that the script declares. */
        SCRIPT,
        /** The site file, for all axes. */
        SITE,
        /** The site file, for this axis. */
        SITE_AXIS;

        /** As it stands in a report. */
        public String printed() {
            return switch (this) {
                case SCRIPT -> "default of the script";
                case SITE -> "set by the site file";
                case SITE_AXIS -> "set by the site file for this axis";
            };
        }
    }
}
