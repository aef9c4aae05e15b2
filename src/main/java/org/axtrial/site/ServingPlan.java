package org.axtrial.site;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.axis.AxisSetup;
import org.axtrial.link.Transport;

/**
 * How often the axes of a site are served, and behind which ports.
 *
 * @param copies how often, 1 … {@value #MOST_COPIES}; from two on the names of the axes are followed by a dash and the
 *     number of the copy
 * @param onePort all drives behind one port, with the unit ids 1, 2, … in their order; otherwise one port for each
 *     endpoint and copy, with the unit ids of the site
 */
public record ServingPlan(int copies, boolean onePort) {

    /** Every axis once, as the site says. */
    public static final ServingPlan AS_IN_SITE = new ServingPlan(1, false);

    /** More would be no use on one computer. */
    public static final int MOST_COPIES = 1000;

    /** Unit ids of stations; above 247 they are reserved. Source: MODBUS over Serial Line V1.02, 2.2. */
    public static final int MOST_UNITS = 247;

    public ServingPlan {
        if (copies < 1 || copies > MOST_COPIES) {
            throw new IllegalArgumentException("there are 1 … " + MOST_COPIES + " copies, got " + copies);
        }
    }

    /** An axis with the unit id that it is served by. */
    record Place(SiteAxis axis, int unit) {}

    /**
     * The axes behind each port, in order.
     *
     * @throws IllegalArgumentException if one port has not enough unit ids
     */
    List<List<Place>> ports(Site site) {
        List<List<Place>> ports = new ArrayList<>();
        for (int copy = 1; copy <= copies; copy++) {
            for (List<SiteAxis> sharing : byEndpoint(site)) {
                List<Place> port = new ArrayList<>();
                for (SiteAxis axis : sharing) {
                    port.add(new Place(
                            copies == 1 ? axis : copied(axis, copy),
                            axis.endpoint().unit()));
                }
                ports.add(port);
            }
        }
        return onePort ? List.of(numbered(ports, site)) : ports;
    }

    /** All places in the order of the site file, numbered from one. */
    private List<Place> numbered(List<List<Place>> ports, Site site) {
        List<String> order = names(site);
        if (order.size() > MOST_UNITS) {
            throw new IllegalArgumentException(
                    "one port has the unit ids 1 … " + MOST_UNITS + ", which is not enough for " + order.size()
                            + " drives; serve fewer copies, or each endpoint behind its own port");
        }
        Map<String, SiteAxis> byName = new LinkedHashMap<>();
        ports.forEach(port -> port.forEach(place -> byName.put(place.axis().name(), place.axis())));
        List<Place> numbered = new ArrayList<>();
        for (String name : order) {
            SiteAxis axis = byName.get(name);
            if (axis != null) {
                numbered.add(new Place(axis, numbered.size() + 1));
            }
        }
        return numbered;
    }

    /** Names of the served axes: those of the site in file order, copy after copy. */
    List<String> names(Site site) {
        List<String> names = new ArrayList<>();
        for (int copy = 1; copy <= copies; copy++) {
            for (SiteAxis axis : site.axes()) {
                names.add(copies == 1 ? axis.name() : copyName(axis.name(), copy));
            }
        }
        return names;
    }

    /** What joins the served axes: each copy of the machine has couplings of its own. */
    List<SiteCoupling> couplings(Site site) {
        if (copies == 1) {
            return site.couplings();
        }
        List<SiteCoupling> couplings = new ArrayList<>();
        for (int copy = 1; copy <= copies; copy++) {
            for (SiteCoupling coupling : site.couplings()) {
                couplings.add(new SiteCoupling(
                        coupling.coupling(), copyName(coupling.first(), copy), copyName(coupling.second(), copy)));
            }
        }
        return couplings;
    }

    private static String copyName(String name, int copy) {
        return name + "-" + copy;
    }

    private static Collection<List<SiteAxis>> byEndpoint(Site site) {
        Map<Transport, List<SiteAxis>> sharing = new LinkedHashMap<>();
        for (SiteAxis axis : site.axes()) {
            sharing.computeIfAbsent(axis.endpoint().transport(), transport -> new ArrayList<>())
                    .add(axis);
        }
        return sharing.values();
    }

    private static SiteAxis copied(SiteAxis axis, int copy) {
        AxisSetup setup = axis.setup();
        return new SiteAxis(
                setup.named(copyName(setup.name(), copy)),
                axis.description(),
                axis.endpoint(),
                axis.driveFile(),
                axis.drive(),
                axis.simulation(),
                axis.faults());
    }
}
