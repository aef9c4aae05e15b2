package org.axtrial.site;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.axtrial.sim.CoupledDrives;
import org.axtrial.sim.SimulatedDrive;

/** Couples the simulated drives of a site, those that hang together as one group. */
final class CoupledAxes {

    private CoupledAxes() {}

    /**
     * An axis with the drive that stands for its own.
     *
     * @param axis the axis
     * @param drive has not run yet
     */
    record Simulated(SiteAxis axis, SimulatedDrive drive) {

        private CoupledDrives.Side side() {
            return new CoupledDrives.Side(drive, axis.setup().scale().direction());
        }
    }

    /** New drives for the axes that couplings join, by name. */
    static Map<String, Simulated> drives(List<SiteAxis> axes, List<SiteCoupling> couplings)
            throws MissingSimulationException {
        Map<String, Simulated> drives = new LinkedHashMap<>();
        for (SiteAxis axis : axes) {
            if (couplings.stream().anyMatch(coupling -> joins(coupling, axis.name()))) {
                drives.put(axis.name(), new Simulated(axis, SimulatedSite.drive(axis)));
            }
        }
        return drives;
    }

    private static boolean joins(SiteCoupling coupling, String axis) {
        return coupling.first().equals(axis) || coupling.second().equals(axis);
    }

    /**
     * Couples drives.
     *
     * @param drives by the names in the couplings
     * @throws IllegalArgumentException if a coupling cannot be simulated with these axes
     */
    static void couple(List<SiteCoupling> couplings, Map<String, Simulated> drives) {
        for (List<SiteCoupling> group : groups(couplings)) {
            CoupledDrives.join(group.stream()
                    .map(coupling -> new CoupledDrives.Joint(
                            coupling.coupling(),
                            simulated(coupling.first(), drives).side(),
                            simulated(coupling.second(), drives).side()))
                    .toList());
        }
    }

    private static Simulated simulated(String axis, Map<String, Simulated> drives) {
        Simulated found = drives.get(axis);
        if (found == null) {
            throw new IllegalArgumentException("no axis is named " + axis);
        }
        return found;
    }

    /** Couplings that hang together by an axis, in their order. */
    static List<List<SiteCoupling>> groups(List<SiteCoupling> couplings) {
        List<List<SiteCoupling>> groups = new ArrayList<>();
        for (SiteCoupling coupling : couplings) {
            List<SiteCoupling> group = new ArrayList<>();
            for (List<SiteCoupling> other : List.copyOf(groups)) {
                Set<String> axes = axes(other);
                if (axes.contains(coupling.first()) || axes.contains(coupling.second())) {
                    group.addAll(other);
                    groups.remove(other);
                }
            }
            group.add(coupling);
            groups.add(group);
        }
        return groups;
    }

    /** Names of the axes that couplings join, in their order. */
    static Set<String> axes(List<SiteCoupling> couplings) {
        Set<String> axes = new LinkedHashSet<>();
        for (SiteCoupling coupling : couplings) {
            axes.add(coupling.first());
            axes.add(coupling.second());
        }
        return axes;
    }
}
