package org.axtrial.quantity;

/**
 * Difference between two readings of a position register that wraps around. The register turns over like a
 * two's-complement number, so the difference is right as long as the axis moved less than half the register's range
 * between the readings: 32,767 counts in 16 bits, 2³¹−1 counts in 32 bits.
 */
public final class CountDelta {

    private CountDelta() {}

    /**
     * The counts travelled between two readings.
     *
     * @param bits width of the register: 16, 32 or 64
     * @param from earlier reading, signed or unsigned
     * @param to later reading, signed or unsigned
     * @return the shortest way from one to the other, −2^(bits−1) … 2^(bits−1)−1 counts
     * @throws IllegalArgumentException if the width is another one, or a reading does not fit into it
     */
    public static long between(int bits, long from, long to) {
        requireFits(bits, from);
        requireFits(bits, to);
        return switch (bits) {
            case 16 -> (short) (to - from);
            case 32 -> (int) (to - from);
            default -> to - from;
        };
    }

    private static void requireFits(int bits, long reading) {
        switch (bits) {
            case 16, 32 -> {
                long low = -(1L << (bits - 1));
                long high = (1L << bits) - 1;
                if (reading < low || reading > high) {
                    throw new IllegalArgumentException(
                            reading + " does not fit into a position register of " + bits + " bits");
                }
            }
            case 64 -> {
                // Every long fits; an unsigned reading above 2⁶³ arrives as a negative long with the same bits.
            }
            default -> throw new IllegalArgumentException("a position register has 16, 32 or 64 bits, not " + bits);
        }
    }
}
