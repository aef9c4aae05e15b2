package org.axtrial.plant;

/**
 * Turns a shaft angle into whole counts: offset and noise are added, then it is rounded to the nearest count. Allocates
 * nothing.
 */
public final class Encoder {

    private final double perRadian;
    private final double noiseCounts;
    private final double range;
    private final GaussianNoise random;

    private double offsetCounts;

    /** An encoder whose noise follows from the seed. */
    public Encoder(EncoderSpec spec, long seed) {
        this.perRadian = spec.countsPerRevolution() / (2 * Math.PI);
        this.offsetCounts = spec.offset() * perRadian;
        this.noiseCounts = spec.noise() * perRadian;
        this.range = spec.countsPerRevolution() * spec.turns();
        this.random = new GaussianNoise(seed);
    }

    /** Reads the angle, rad; whole counts since the start, not wrapped. With noise each reading differs. */
    public double read(double angle) {
        double place = angle * perRadian + offsetCounts;
        return Math.floor(noiseCounts > 0 ? place + noiseCounts * random.next() + 0.5 : place + 0.5);
    }

    /**
     * What is left of a reading when the supply was off: its place in the turns that the encoder tells apart.
     *
     * @param counts a reading
     * @return 0 … counts per revolution × turns, exclusive
     */
    public double absolute(double counts) {
        return counts - range * Math.floor(counts / range);
    }

    /** Counts in all the turns that it tells apart when it is switched on. */
    public double range() {
        return range;
    }

    /** Lets the encoder slip on its shaft by so many rad; positive makes it read more. */
    public void slip(double radians) {
        Require.finite("slip", radians);
        offsetCounts += radians * perRadian;
    }

    /** Whether two readings of one angle can differ. */
    public boolean noisy() {
        return noiseCounts > 0;
    }
}
