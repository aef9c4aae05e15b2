package org.axtrial.engine;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.script.Discovery;
import org.axtrial.script.LimitTable;
import org.axtrial.script.ScriptLibrary;
import org.axtrial.script.TrialDefinition;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteLimit;

/** Holds the limits of a site file against the trials of its scripts. */
final class LimitCheck {

    private LimitCheck() {}

    /** The limits of a site for its scripts. */
    static LimitTable table(Site site) {
        return new LimitTable(site.limits().stream().map(LimitCheck::setting).toList());
    }

    private static LimitTable.Setting setting(SiteLimit limit) {
        return new LimitTable.Setting(limit.trial(), limit.name(), limit.axis(), limit.value());
    }

    /**
     * Everything that is wrong with the limits of the site file, each with its line.
     *
     * @param chosen trials of the scripts that are to be run
     */
    static List<String> troubles(Site site, ScriptLibrary library, List<TrialDefinition> chosen) {
        if (site.limits().isEmpty()) {
            return List.of();
        }
        Optional<List<TrialDefinition>> others = others(site, library);
        if (others.isEmpty()) {
            return List.of();
        }
        List<TrialDefinition> trials = new ArrayList<>(chosen);
        trials.addAll(others.get());
        List<String> troubles = new ArrayList<>();
        for (SiteLimit limit : site.limits()) {
            LimitTable.Setting setting = setting(limit);
            setting.trouble(trials)
                    .or(() -> onAxes(site, setting, trials))
                    .map(limit::problem)
                    .ifPresent(troubles::add);
        }
        return troubles;
    }

    private static Optional<String> onAxes(Site site, LimitTable.Setting setting, List<TrialDefinition> trials) {
        for (SiteAxis axis : site.axes()) {
            Optional<String> trouble =
                    setting.troubleOn(axis.name(), axis.setup().scale(), trials);
            if (trouble.isPresent()) {
                return trouble;
            }
        }
        return Optional.empty();
    }

    /**
     * Trials of the scripts that the site file lists, whichever of them are run today; empty if one of them cannot be
     * read, because then nobody knows what it declares. They are looked at through a library of their own, so that what
     * is not run does not go into the evidence.
     */
    private static Optional<List<TrialDefinition>> others(Site site, ScriptLibrary library) {
        ScriptLibrary aside = new ScriptLibrary(library.folder());
        List<TrialDefinition> trials = new ArrayList<>();
        for (Path script : site.scripts()) {
            Optional<Discovery> found = aside.nameOf(script).map(aside::discover);
            if (found.isEmpty() || !found.get().problems().isEmpty()) {
                return Optional.empty();
            }
            trials.addAll(found.get().trials());
        }
        return Optional.of(trials);
    }
}
