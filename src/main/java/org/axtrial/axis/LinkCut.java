package org.axtrial.axis;

import java.time.Duration;

/**
 * How the link is taken away while an axis moves.
 *
 * @param how in which way
 * @param after time from the start of the motion, positive; for a cable of a real axis, which a person pulls, it means
 *     nothing
 * @param lasts how long the program stays away, positive; for a cable of a real axis, how long it may stay unplugged
 */
public record LinkCut(How how, Duration after, Duration lasts) {

    /** Ways in which a link is lost. */
    public enum How {
        /** The program ends its connection. */
        CLOSE,
        /** The program says nothing any more over a connection that stands. */
        SILENCE,
        /** The cable is pulled: by a person, or in the simulation. */
        CABLE
    }

    public LinkCut {
        if (after.isNegative() || after.isZero() || lasts.isNegative() || lasts.isZero()) {
            throw new IllegalArgumentException(
                    "a link is cut after a time above 0 and for a time above 0, got " + after + " and " + lasts);
        }
    }
}
