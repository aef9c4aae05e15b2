package org.axtrial.sim;

import java.time.Duration;

/** Counts how far behind the steps of one drive were, in classes of equal width. Not safe for several threads. */
final class LagMeter {

    /** Width of a class; quantiles are told as the upper end of theirs. */
    static final Duration RESOLUTION = Duration.ofNanos(100_000);

    private static final long WIDTH = RESOLUTION.toNanos();
    /** Up to 100 ms; what lies above is in the last class, and its quantile is told as the worst lag. */
    private static final int CLASSES = 1000;

    private final long[] counts = new long[CLASSES + 1];
    private long steps;
    private long overruns;
    private long worst;

    /** Counts one step that was so far behind; a lag below 0 counts as none. */
    void see(long lagNanos) {
        long lag = Math.max(0, lagNanos);
        counts[(int) Math.min(CLASSES, lag / WIDTH)]++;
        steps++;
        worst = Math.max(worst, lag);
        if (lag > StepLag.BOUND.toNanos()) {
            overruns++;
        }
    }

    StepLag read() {
        return new StepLag(steps, overruns, quantile(0.5), quantile(0.99), Duration.ofNanos(worst));
    }

    /** The smallest upper end of a class that so many of the steps lie below; by the inverse of the empirical distribution. */
    private Duration quantile(double part) {
        long wanted = (long) Math.ceil(part * steps);
        long seen = 0;
        for (int i = 0; i < CLASSES && wanted > 0; i++) {
            seen += counts[i];
            if (seen >= wanted) {
                return Duration.ofNanos(Math.min(worst, (i + 1) * WIDTH));
            }
        }
        return Duration.ofNanos(worst);
    }
}
