package org.axtrial.drive;

import java.util.Map;
import java.util.OptionalDouble;

/**
 * One look at all sampled signals of a drive.
 *
 * @param values scaled values by signal name, in the unit that the description declares; positions in register counts
 * @param state the decoded status
 * @param sentNanos when the first request of the look was sent
 * @param repliedNanos when its last reply was complete
 */
public record Sample(Map<String, Double> values, DriveState state, long sentNanos, long repliedNanos) {

    public Sample {
        values = Map.copyOf(values);
    }

    /**
     * Value of a signal that every description must declare.
     *
     * @throws IllegalArgumentException if it was not sampled
     */
    public double value(String signal) {
        return find(signal).orElseThrow(() -> new IllegalArgumentException("not sampled: " + signal));
    }

    public OptionalDouble find(String signal) {
        Double value = values.get(signal);
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
