package org.axtrial.report;

import java.util.List;
import org.axtrial.evidence.TrialRecord.Stop;

/** Tells safe stops in sentences. */
final class Stops {

    private Stops() {}

    /** A stop that somebody must look into. */
    static String sentence(Stop stop) {
        return "Axis " + stop.axis() + " was stopped: " + Words.minus(stop.reason()) + ". Stop order "
                + (stop.ordered() ? "acknowledged" : "NOT acknowledged") + ", standstill "
                + (stop.standstill() ? "confirmed after " + Words.seconds(stop.seconds()) : "NOT confirmed") + "; "
                + Words.minus(stop.detail()) + ".";
    }

    /** Several stops for one reason and with one outcome. */
    static String sentence(List<Stop> alike) {
        Stop first = alike.get(0);
        List<String> axes = alike.stream().map(Stop::axis).distinct().toList();
        double longest = alike.stream().mapToDouble(Stop::seconds).max().orElse(0);
        return (axes.size() == 1 ? "Axis " : "Axes ") + String.join(", ", axes)
                + (axes.size() == 1 ? " was" : " were") + " stopped, " + Words.count(alike.size(), "time", "times")
                + " in all: " + Words.minus(first.reason()) + ". Stop order "
                + (first.ordered() ? "acknowledged" : "NOT acknowledged") + ", standstill "
                + (first.standstill()
                        ? "confirmed each time, after at most " + Words.seconds(longest)
                        : "NOT confirmed")
                + ".";
    }

    /** The stop that ends every trial. */
    static String quiet(Stop stop) {
        return "Stopped at the end of the trial, standstill confirmed after " + Words.seconds(stop.seconds()) + ", "
                + Words.minus(stop.detail()) + ".";
    }
}
