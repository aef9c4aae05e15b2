package org.axtrial.measure;

import java.util.Arrays;
import java.util.List;
import org.axtrial.quantity.Unit;

/** How fast a drive answers. */
public final class ReplyTimes {

    private ReplyTimes() {}

    /**
     * The time that a share of looks did not exceed: the smallest of the times for which that holds.
     *
     * @param seconds times of single looks, not empty
     * @param share above 0, at most 1; 1 gives the longest
     * @throws IllegalArgumentException if there is no time, or no such share
     */
    public static Measurement quantile(List<Double> seconds, double share) {
        if (seconds.isEmpty() || !(share > 0 && share <= 1)) {
            throw new IllegalArgumentException(
                    "a share of " + share + " of " + seconds.size() + " times cannot be told");
        }
        double[] sorted = seconds.stream().mapToDouble(Double::doubleValue).toArray();
        Arrays.sort(sorted);
        double value = sorted[(int) Math.ceil(share * sorted.length) - 1];
        String name = share == 1 ? "longest reply time" : "reply time of " + Printed.brief(100 * share, Unit.PERCENT);
        return new Draft(
                        name,
                        "From the request to the complete reply of one look at all sampled signals; "
                                + Printed.brief(100 * share, Unit.PERCENT) + " of " + sorted.length
                                + " looks took no longer.",
                        Unit.MILLISECOND)
                .source(Source.RUNNER)
                .value(value * 1e3);
    }

    /** Looks that brought no valid reply. */
    public static Measurement errors(int failed, int looks) {
        return new Draft("failed looks", "Looks without a valid reply, of " + looks + ".", Unit.ONE)
                .source(Source.RUNNER)
                .value(failed);
    }
}
