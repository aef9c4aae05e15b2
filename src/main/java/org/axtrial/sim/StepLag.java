package org.axtrial.sim;

import java.time.Duration;

/**
 * How far a drive that runs in real time was behind the clock each time it was stepped. A drive is stepped every
 * millisecond and with each request, so that about 1 ms is as good as it gets.
 *
 * @param steps how often it was stepped
 * @param overruns how often it was more than {@link #BOUND} behind
 * @param median half of the steps were not further behind, to {@link LagMeter#RESOLUTION}; zero before the first step
 * @param p99 99 % of the steps were not further behind, to the same resolution
 * @param worst furthest behind, exactly
 */
public record StepLag(long steps, long overruns, Duration median, Duration p99, Duration worst) {

    /**
     * A drive further behind has overrun its step: a master that polls every 5 ms to 20 ms can see it stand still.
     * Common practice, no source.
     */
    public static final Duration BOUND = Duration.ofMillis(20);
}
