package org.axtrial.measure;

import java.util.Arrays;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.regression.SimpleRegression;

/**
 * The samples at the end of a record, where the axis should stand.
 *
 * @param scatter their mean and scatter; 1 … 50 samples
 * @param first index of the first of them
 * @param speed their slope by least squares, unit per second
 * @param moving whether the slope is more than noise and steps can explain
 */
record Rest(Scatter scatter, int first, double speed, boolean moving) {

    static final int FEWEST = 5;
    static final int MOST = 50;

    /** Five normal values span 2.3 standard deviations in the mean; three times that on either side
     * leaves hardly any out, even of values that are related to each other and so span less. */
    private static final double WIDENING = 3;

    /** A slope this many times its standard error is no accident. */
    private static final double SIGNIFICANT = 5;

    /**
     * Looks at the last five samples, and at those before them, up to fifty, that lie in the range of the five widened
     * by three times itself, and by one quantum at least. Without the widening only samples like the five would come in, and the
     * scatter of noise would look smaller than it is.
     *
     * @param trace at least one sample
     */
    static Rest atEnd(Trace trace, String channel) {
        double[] x = trace.values(channel);
        double quantum = trace.channel(channel).quantum();
        int first = Math.max(0, x.length - FEWEST);
        double least = Arrays.stream(x, first, x.length).min().orElseThrow();
        double most = Arrays.stream(x, first, x.length).max().orElseThrow();
        double slack = Math.max(quantum, WIDENING * (most - least));
        double low = least - slack;
        double high = most + slack;
        while (first > 0 && x.length - first < MOST && x[first - 1] >= low && x[first - 1] <= high) {
            first--;
        }
        int n = x.length - first;
        SimpleRegression line = new SimpleRegression();
        for (int i = first; i < x.length; i++) {
            line.addData(trace.time(i), x[i]);
        }
        double duration = trace.time(x.length - 1) - trace.time(first);
        double slope = n < 2 || duration <= 0 ? 0 : line.getSlope();
        double error = n < 3 || duration <= 0 ? 0 : line.getSlopeStdErr();
        boolean moving = Math.abs(slope) * duration > 2 * quantum && Math.abs(slope) > SIGNIFICANT * error;
        return new Rest(Scatter.of(x, first, n), first, slope, moving);
    }

    double mean() {
        return scatter.mean();
    }

    /** Adds the scatter of the mean at rest. */
    Draft scatter(Draft draft) {
        return draft.scatter("repeatability at rest", scatter, "samples");
    }
}
