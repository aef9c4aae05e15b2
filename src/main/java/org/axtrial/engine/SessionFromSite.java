package org.axtrial.engine;

import java.util.Optional;
import org.junit.platform.engine.ConfigurationParameters;

/** Makes the session of an engine that a build tool or an editor has started, which cannot pass objects. */
final class SessionFromSite {

    /** Path of the site file. */
    static final String SITE = "axtrial.site";

    /** {@code real}, {@code simulated} or {@code rehearsal}; rehearsal if left out, because it moves nothing. */
    static final String HOW = "axtrial.how";

    private SessionFromSite() {}

    /** The session that the parameters describe; empty if they name no site file, so that nothing was asked for. */
    static Optional<RunSession> open(ConfigurationParameters parameters) {
        Optional<String> site = parameters.get(SITE);
        if (site.isEmpty()) {
            return Optional.empty();
        }
        throw new UnsupportedOperationException(
                SITE + " = " + site.get() + ": start this run with the command line, or give the engine a session");
    }
}
