package org.axtrial.survey;

import java.util.Arrays;

/** Times of looks at a drive, in ns. */
final class Times {

    private final long[] sorted;

    private Times(long[] sorted) {
        this.sorted = sorted;
    }

    /** At least one time. */
    static Times of(long[] nanos) {
        if (nanos.length == 0) {
            throw new IllegalArgumentException("no times");
        }
        long[] sorted = nanos.clone();
        Arrays.sort(sorted);
        return new Times(sorted);
    }

    /**
     * The time that a share of all looks did not exceed, by nearest rank: the value at rank ⌈share · n⌉.
     *
     * @param share above 0, up to 1
     */
    long quantile(double share) {
        return sorted[Math.max(1, (int) Math.ceil(share * sorted.length)) - 1];
    }

    long worst() {
        return sorted[sorted.length - 1];
    }
}
