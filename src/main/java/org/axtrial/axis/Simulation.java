package org.axtrial.axis;

import java.util.Map;

/** The simulated machine behind an axis, as far as a trial may lay hands on it: it can be made worse, never looked into. */
@FunctionalInterface
public interface Simulation {

    /**
     * Lets something go wrong with the machine now.
     *
     * @param fault an entry of {@code machineFaults} as the site file takes it: texts, numbers and truth values by key
     * @throws IllegalArgumentException if it is no such entry, or the machine cannot have it; all of it is told
     */
    void strike(Map<String, Object> fault);
}
