package org.axtrial.site;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Instrument;

/**
 * A site file, parsed and checked, with its drive descriptions.
 *
 * @param file the site file
 * @param job what the file says of job, customer, site and contract, in file order
 * @param machine what it says of the machine, in file order
 * @param operator who runs the tests by default; empty string if the file does not say
 * @param decisionRule how values are judged
 * @param target what a run works with, unless the command says otherwise: {@code REAL} or {@code SIMULATED}
 * @param parallel whether axes may move at the same time
 * @param scripts scripts to run when none are named, in order; they exist
 * @param axes the axes under test, in file order, at least one
 * @param instruments what is measured with beside the drives, in file order
 * @param behind for an axis of a daisy chain the axis from whose second network port it is wired
 * @param couplings what joins the loads of axes in a simulation, in file order
 * @param limits what is set in place of the defaults of scripts, in file order
 */
public record Site(
        Path file,
        Map<String, String> job,
        Map<String, String> machine,
        String operator,
        DecisionRule decisionRule,
        How target,
        boolean parallel,
        List<Path> scripts,
        List<SiteAxis> axes,
        List<Instrument> instruments,
        Map<String, String> behind,
        List<SiteCoupling> couplings,
        List<SiteLimit> limits) {

    public Site {
        job = Collections.unmodifiableMap(new LinkedHashMap<>(job));
        machine = Collections.unmodifiableMap(new LinkedHashMap<>(machine));
        scripts = List.copyOf(scripts);
        axes = List.copyOf(axes);
        instruments = List.copyOf(instruments);
        behind = Collections.unmodifiableMap(new LinkedHashMap<>(behind));
        couplings = List.copyOf(couplings);
        limits = List.copyOf(limits);
        if (axes.isEmpty()) {
            throw new IllegalArgumentException("a site needs at least one axis");
        }
    }

    /** The drive descriptions in use, each once, in the order of the axes. */
    public List<Path> driveFiles() {
        return axes.stream().map(SiteAxis::driveFile).distinct().toList();
    }
}
