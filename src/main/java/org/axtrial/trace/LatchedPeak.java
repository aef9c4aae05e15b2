package org.axtrial.trace;

/**
 * Largest size of a signal that the drive has caught by itself, in its own cycle, between two looks at its latch. The latch
 * was cleared just before the command and read after the last sample.
 *
 * @param of the signal that it is the peak of, by its name in the trace, with the unit and the step of the latch
 * @param cleared what the latch showed once it had been cleared, in that unit, not negative; a latch that shows the same at
 *     the end has caught nothing since, or was never cleared
 * @param value what it showed at the end, in that unit, not negative
 */
public record LatchedPeak(Channel of, double cleared, double value) {

    public LatchedPeak {
        require(of, cleared);
        require(of, value);
    }

    private static void require(Channel of, double size) {
        if (!(size >= 0) || Double.isInfinite(size)) {
            throw new IllegalArgumentException(
                    "a latched peak of " + of.name() + " must be finite and not negative, got " + size);
        }
    }
}
