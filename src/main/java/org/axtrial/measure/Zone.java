package org.axtrial.measure;

/** Where a value lies between a tolerance limit and the guard band beside it (ILAC-G8:09/2019, 4.2.3). */
public enum Zone {
    /** Inside the limits by the guard band or more. */
    PASS("pass"),
    /** Inside the limits, but nearer to one than the guard band; the limit itself belongs here. */
    CONDITIONAL_PASS("conditional pass"),
    /** Outside the limits, but by no more than the guard band. */
    CONDITIONAL_FAIL("conditional fail"),
    /** Outside the limits by more than the guard band. */
    FAIL("fail");

    /** Two numbers that differ by less are equal but for binary arithmetic. */
    private static final double SAME = 1 + 1e-9;

    private final String printed;

    Zone(String printed) {
        this.printed = printed;
    }

    /** The name in reports. */
    public String printed() {
        return printed;
    }

    /**
     * The zone of a value.
     *
     * @param margin distance to the nearer limit, positive inside
     * @param guardBand its width, not negative
     */
    static Zone of(double margin, double guardBand) {
        if (margin >= 0) {
            return margin * SAME >= guardBand ? PASS : CONDITIONAL_PASS;
        }
        return -margin <= guardBand * SAME ? CONDITIONAL_FAIL : FAIL;
    }
}
