package org.axtrial.engine;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.evidence.Manifest;
import org.axtrial.site.How;
import org.axtrial.site.RigException;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.axtrial.site.SiteProblemsException;
import org.junit.platform.commons.JUnitException;
import org.junit.platform.engine.ConfigurationParameters;

/**
 * Makes the session of an engine that a build tool or an editor has started, which cannot pass objects. Real axes are
 * never worked this way, because nobody could arm them.
 */
final class SessionFromSite {

    /** Path of the site file. */
    static final String SITE = "axtrial.site";

    /** {@code simulated} or {@code rehearsal}; rehearsal if left out. */
    static final String HOW = "axtrial.how";

    /** Folder for the evidence packs; {@code target/axtrial-reports} if left out. */
    static final String REPORTS = "axtrial.reports";

    private SessionFromSite() {}

    /**
     * The session that the parameters describe; empty if they name no site file, so that nothing was asked for.
     *
     * @throws JUnitException if site file, scripts or axes have problems; the message holds all of them
     */
    static Optional<RunSession> open(ConfigurationParameters parameters) {
        Optional<String> site = parameters.get(SITE);
        return site.map(file -> open(
                Path.of(file),
                how(parameters.get(HOW).orElse("rehearsal")),
                Path.of(parameters.get(REPORTS).orElse("target/axtrial-reports"))));
    }

    private static RunSession open(Path file, How how, Path reports) {
        try {
            Site site = SiteFile.load(file);
            SiteSession opened = SiteSession.open(site, how, SiteSession.scripts(site, List.of()), reports, "");
            return opened.session().withAfterwards(() -> finish(opened));
        } catch (SiteProblemsException | ScriptProblemsException | RigException e) {
            throw new JUnitException(String.valueOf(e.getMessage()), e);
        }
    }

    private static void finish(SiteSession session) {
        try (session) {
            session.pack().finish();
            Manifest.write(session.pack().folder());
        }
    }

    private static How how(String text) {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "simulated" -> How.SIMULATED;
            case "rehearsal" -> How.REHEARSAL;
            default ->
                throw new JUnitException(HOW + " must be simulated or rehearsal, got \"" + text
                        + "\"; real axes are run from the command line");
        };
    }
}
