package org.axtrial.plant;

/**
 * Gaussian random numbers from a seed, the same to the bit on every Java version, without allocation.
 *
 * <p>Bits: SplitMix64 (Steele, Lea and Flood 2014). Shape: ziggurat of 128 layers (Marsaglia and Tsang 2000, in the form of
 * Doornik 2005, which uses separate bits for layer and place). Constants from memory; the distribution is tested.
 */
final class GaussianNoise {

    private static final int LAYERS = 128;
    private static final double TAIL = 3.442619855899;
    private static final double AREA = 9.91256303526217e-3;
    private static final double[] EDGES = new double[LAYERS + 1];
    private static final double[] RATIOS = new double[LAYERS];

    static {
        double density = StrictMath.exp(-0.5 * TAIL * TAIL);
        EDGES[0] = AREA / density;
        EDGES[1] = TAIL;
        for (int i = 2; i < LAYERS; i++) {
            double edge = StrictMath.sqrt(-2 * StrictMath.log(AREA / EDGES[i - 1] + density));
            EDGES[i] = edge;
            density = StrictMath.exp(-0.5 * edge * edge);
        }
        for (int i = 0; i < LAYERS; i++) {
            RATIOS[i] = EDGES[i + 1] / EDGES[i];
        }
    }

    private long state;

    GaussianNoise(long seed) {
        this.state = seed;
    }

    private long bits() {
        state += 0x9E3779B97F4A7C15L;
        long z = (state ^ (state >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }

    /** Above 0, at most 1. */
    private double uniform() {
        return ((bits() >>> 11) + 1) * 0x1p-53;
    }

    /** The next number; mean 0, standard deviation 1. */
    double next() {
        while (true) {
            long bits = bits();
            int layer = (int) bits & (LAYERS - 1);
            // The upper 53 bits give the place, the lowest 7 the layer; they do not overlap.
            double place = (bits >> 11) * 0x1p-52;
            if (Math.abs(place) < RATIOS[layer]) {
                return place * EDGES[layer];
            }
            if (layer == 0) {
                return tail(place < 0);
            }
            double x = place * EDGES[layer];
            double outer = StrictMath.exp(-0.5 * (EDGES[layer] * EDGES[layer] - x * x));
            double inner = StrictMath.exp(-0.5 * (EDGES[layer + 1] * EDGES[layer + 1] - x * x));
            if (inner + uniform() * (outer - inner) < 1) {
                return x;
            }
        }
    }

    private double tail(boolean negative) {
        while (true) {
            double x = -StrictMath.log(uniform()) / TAIL;
            double y = -StrictMath.log(uniform());
            if (y + y >= x * x) {
                return negative ? -TAIL - x : TAIL + x;
            }
        }
    }
}
