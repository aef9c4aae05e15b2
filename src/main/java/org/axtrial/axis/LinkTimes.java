package org.axtrial.axis;

import java.util.List;

/**
 * How long looks at a drive took.
 *
 * @param seconds from request to complete reply, of those that succeeded, in the order of asking; not empty
 * @param errors looks that failed
 */
public record LinkTimes(List<Double> seconds, int errors) {

    public LinkTimes {
        seconds = List.copyOf(seconds);
        if (seconds.isEmpty()) {
            throw new IllegalArgumentException("no look succeeded, " + errors + " failed");
        }
        if (errors < 0) {
            throw new IllegalArgumentException("errors cannot be negative: " + errors);
        }
    }

    /**
     * The smallest time that so large a share of the looks did not exceed.
     *
     * @param share above 0, at most 1
     */
    public double quantile(double share) {
        List<Double> sorted = seconds.stream().sorted().toList();
        return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
    }
}
