package org.axtrial.measure;

/** What is assumed of an input of a measurement, and what its spread means. */
public enum Distribution {
    /** The spread is a standard deviation, or an expanded uncertainty whose coverage factor is the divisor. */
    NORMAL("normal"),
    /** Equally likely within ± the spread: divisor √3 (JCGM 100:2008, 4.3.7). */
    RECTANGULAR("rectangular"),
    /** Sum of two equal rectangular ones; nothing beyond ± the spread: divisor √6 (JCGM 100:2008, 4.3.9). */
    TRIANGULAR("triangular"),
    /** A sine of unknown phase with the spread as its amplitude: divisor √2 (arc-sine; H. Castrup, from memory). */
    U_SHAPED("U-shaped");

    private final String printed;

    Distribution(String printed) {
        this.printed = printed;
    }

    /** The name in budgets. */
    public String printed() {
        return printed;
    }
}
