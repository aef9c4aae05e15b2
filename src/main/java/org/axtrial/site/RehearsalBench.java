package org.axtrial.site;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.time.VirtualTime;

/**
 * Drives and clocks of a rehearsal: each axis has a virtual clock of its own, but axes that are coupled have one together,
 * because what moves one moves the other.
 */
final class RehearsalBench {

    private final Map<String, VirtualTime> clocks = new HashMap<>();
    private final Map<String, CoupledAxes.Simulated> coupled = new HashMap<>();

    /** Makes and couples the drives that couplings join. */
    RehearsalBench(Site site) {
        for (List<SiteCoupling> group : CoupledAxes.groups(site.couplings())) {
            VirtualTime time = new VirtualTime(Instant.EPOCH);
            CoupledAxes.axes(group).forEach(axis -> clocks.put(axis, time));
        }
        try {
            coupled.putAll(CoupledAxes.drives(site.axes(), site.couplings()));
        } catch (MissingSimulationException e) {
            throw new IllegalStateException(e); // a site file whose coupled axes cannot be simulated is refused
        }
        CoupledAxes.couple(site.couplings(), coupled);
    }

    VirtualTime time(SiteAxis axis) {
        return clocks.computeIfAbsent(axis.name(), name -> new VirtualTime(Instant.EPOCH));
    }

    SimulatedDrive drive(SiteAxis axis) throws MissingSimulationException {
        CoupledAxes.Simulated simulated = coupled.get(axis.name());
        return simulated == null ? SimulatedSite.drive(axis) : simulated.drive();
    }
}
