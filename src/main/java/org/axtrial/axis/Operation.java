package org.axtrial.axis;

/**
 * A person who works on the machine during a motion, and may bring it to a stop. Looked at once for each sample, by the
 * thread that works the axis.
 */
@FunctionalInterface
public interface Operation {

    /**
     * Looks how far the person is.
     *
     * @param seconds since the axis does what it was ordered to: at its speed, or dwelling
     * @return false if nothing will come of it any more, so that the motion can end
     */
    boolean goesOn(double seconds);
}
