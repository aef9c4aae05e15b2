package org.axtrial.site;

import org.axtrial.plant.LoadCoupling;

/**
 * What joins the loads of two axes of a site in a simulation.
 *
 * @param coupling what joins them
 * @param first name of its first axis
 * @param second name of its second axis, another one
 */
public record SiteCoupling(LoadCoupling coupling, String first, String second) {

    public SiteCoupling {
        if (first.equals(second)) {
            throw new IllegalArgumentException("a coupling joins two axes, got " + first + " twice");
        }
    }
}
