package org.axtrial.acceptance;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.axtrial.evidence.PunchClass;

/**
 * Something that is still to be done, or was done.
 *
 * @param number 1 for the first of the pack
 * @param raisedAt when
 * @param text what is to be done
 * @param grade how much it weighs
 * @param owner who has to do it; empty string if nobody was named
 * @param due by when
 * @param trial id of the trial that it came from
 * @param axis the axis that it belongs to
 * @param by who raised it
 * @param closing how it was closed; empty while it is open
 */
public record PunchItem(
        int number,
        Instant raisedAt,
        String text,
        PunchClass grade,
        String owner,
        Optional<LocalDate> due,
        Optional<String> trial,
        Optional<String> axis,
        String by,
        Optional<Closing> closing) {

    /**
     * How an item was closed.
     *
     * @param evidence what shows it
     */
    public record Closing(Instant at, String evidence, String by) {}

    /** Whether it is still to be done. */
    public boolean open() {
        return closing.isEmpty();
    }

    /** Whether it is open after the day by which it was to be closed. */
    public boolean overdue(LocalDate today) {
        return open() && due.filter(today::isAfter).isPresent();
    }
}
