package org.axtrial.plant;

/**
 * Torque of the magnets on the slots, −A·sin(n·θ): the shaft rests stably at angle 0.
 *
 * @param amplitude A in N·m, not negative
 * @param periods n in one motor revolution, 1 … 1000
 */
public record Cogging(double amplitude, int periods) {

    /** A motor without cogging. */
    public static final Cogging NONE = new Cogging(0, 1);

    public Cogging {
        Require.notNegative("cogging amplitude", amplitude);
        if (periods < 1 || periods > 1000) {
            throw new IllegalArgumentException("cogging periods must be 1 … 1000, got " + periods);
        }
    }
}
