package org.axtrial.measure;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.regression.SimpleRegression;

/**
 * The samples at the end of a record, where the axis should stand.
 *
 * @param scatter their mean and scatter; 1 … 50 samples
 * @param first index of the first of them
 * @param speed their slope by least squares, unit per second
 * @param aboutALine their standard deviation about the straight line with that slope; 0 of fewer than three
 * @param moving whether the slope is more than noise and steps can explain
 */
record Rest(Scatter scatter, int first, double speed, double aboutALine, boolean moving) {

    static final int FEWEST = 5;
    static final int MOST = 50;

    /** Five normal values span 2.3 standard deviations in the mean; three times that on either side
     * leaves hardly any out, even of values that are related to each other and so span less. */
    private static final double WIDENING = 3;

    /** So many times a small change from sample to sample is about four standard deviations of noise that keeps up to
     * 0.7 of itself from sample to sample, of which five may by accident lie close together. */
    private static final double CHANGES = 16;

    /** A slope this many times its standard error is no accident. */
    private static final double SIGNIFICANT = 5;

    /**
     * Looks at the last five samples, and at those before them, up to fifty, that lie in the range of the five widened
     * by three times itself, and by one quantum at least. Without the widening only samples like the five would come in, and the
     * scatter of noise would look smaller than it is. Where the five go up and down and are not all there is, the range is widened by
     * sixteen times the lower quartile of the changes between neighbours too, unless that takes in a part of the approach.
     *
     * @param trace at least one sample
     */
    static Rest atEnd(Trace trace, String channel) {
        double[] x = trace.values(channel);
        double quantum = trace.channel(channel).quantum();
        int last = Math.max(0, x.length - FEWEST);
        double least = Arrays.stream(x, last, x.length).min().orElseThrow();
        double most = Arrays.stream(x, last, x.length).max().orElseThrow();
        double slack = Math.max(quantum, WIDENING * (most - least));
        Rest rest = from(trace, x, reach(x, last, least - slack, most + slack), quantum);
        if (rest.scatter.n() == MOST || !turns(x, last)) {
            return rest;
        }
        double wider = Math.max(slack, CHANGES * smallChange(x));
        Rest wide = from(trace, x, reach(x, last, least - wider, most + wider), quantum);
        boolean enough = rest.scatter.n() >= Scatter.FEWEST_FOR_AUTOCORRELATION;
        return wide.moving && enough ? rest : wide;
    }

    /** Index of the first of up to fifty samples at the end that lie between two values. */
    private static int reach(double[] x, int last, double low, double high) {
        int first = last;
        while (first > 0 && x.length - first < MOST && x[first - 1] >= low && x[first - 1] <= high) {
            first--;
        }
        return first;
    }

    private static Rest from(Trace trace, double[] x, int first, double quantum) {
        int n = x.length - first;
        SimpleRegression line = new SimpleRegression();
        for (int i = first; i < x.length; i++) {
            line.addData(trace.time(i), x[i]);
        }
        double duration = trace.time(x.length - 1) - trace.time(first);
        double slope = n < 2 || duration <= 0 ? 0 : line.getSlope();
        double error = n < 3 || duration <= 0 ? 0 : line.getSlopeStdErr();
        double deviation = n < 3 || duration <= 0 ? 0 : Math.sqrt(line.getMeanSquareError());
        boolean moving = Math.abs(slope) * duration > 2 * quantum && Math.abs(slope) > SIGNIFICANT * error;
        return new Rest(Scatter.of(x, first, n), first, slope, deviation, moving);
    }

    /** Whether the position went both ways from a sample on, as noise does and the end of an approach does not. */
    private static boolean turns(double[] x, int first) {
        boolean up = false;
        boolean down = false;
        for (int i = first + 1; i < x.length; i++) {
            up |= x[i] > x[i - 1];
            down |= x[i] < x[i - 1];
        }
        return up && down;
    }

    /** Lower quartile of the changes between neighbours among the last samples, in which an approach does not show. */
    private static double smallChange(double[] x) {
        double[] changes = IntStream.range(Math.max(1, x.length - MOST + 1), x.length)
                .mapToDouble(i -> Math.abs(x[i] - x[i - 1]))
                .sorted()
                .toArray();
        return changes.length == 0 ? 0 : changes[changes.length / 4];
    }

    double mean() {
        return scatter.mean();
    }

    /** Adds the scatter of the mean at rest. */
    Draft scatter(Draft draft) {
        return draft.scatter("repeatability at rest", scatter, "samples");
    }
}
