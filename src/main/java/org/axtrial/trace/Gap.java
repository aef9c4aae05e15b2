package org.axtrial.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A place where samples are missing: two neighbours more than three times as far apart as is usual in the trace (the median), so
 * that two looks at the axis at least did not come about.
 *
 * @param from time of the last sample before it, seconds
 * @param to time of the first sample after it, seconds
 */
public record Gap(double from, double to) {

    private static final double LONGER_THAN_USUAL = 3;

    /** Length in seconds. */
    public double length() {
        return to - from;
    }

    /** Whether the command was sent in it: time zero, for which the link is taken while the axis rests. */
    public boolean holdsCommand() {
        return from <= 0 && to >= 0;
    }

    /**
     * The gaps of a trace in the order of time.
     *
     * @param times of the samples in seconds, ascending
     */
    public static List<Gap> in(double[] times) {
        double[] sorted = new double[Math.max(0, times.length - 1)];
        Arrays.setAll(sorted, i -> times[i + 1] - times[i]);
        Arrays.sort(sorted);
        List<Gap> gaps = new ArrayList<>();
        for (int i = 0; i < sorted.length; i++) {
            if (times[i + 1] - times[i] > LONGER_THAN_USUAL * sorted[sorted.length / 2]) {
                gaps.add(new Gap(times[i], times[i + 1]));
            }
        }
        return gaps;
    }
}
