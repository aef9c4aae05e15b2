package org.axtrial.acceptance;

/** How an acceptance stands, worst first. It follows from results and agreements by {@link Standing}'s rules alone. */
public enum AcceptanceState {
    NOT_ACCEPTED("NOT ACCEPTED"),
    INCOMPLETE("INCOMPLETE"),
    ACCEPTED_WITH_DEVIATIONS("ACCEPTED WITH DEVIATIONS"),
    ACCEPTED("ACCEPTED");

    private final String printed;

    AcceptanceState(String printed) {
        this.printed = printed;
    }

    /** As it stands in reports. */
    public String printed() {
        return printed;
    }
}
