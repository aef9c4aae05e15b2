package org.axtrial.measure;

import java.util.Arrays;
import java.util.List;
import org.axtrial.trace.Gap;
import org.axtrial.trace.Trace;

/** Which samples of a trace a measurement may use, and what may hide between them. */
final class Samples {

    /** Differences below this part of a quantum come from binary arithmetic, not from the axis. */
    static final double ROUNDING = 1e-6;

    /** With fewer samples nothing is known of what passed between them. */
    static final int SHOW_CURVATURE = 3;

    /** Half of all normal values lie within so many standard deviations. */
    private static final double NORMAL_QUARTILE = 0.6744897501960817;

    private Samples() {}

    /** The part from the command on. */
    static Trace afterCommand(Trace trace) {
        return trace.between(0, Double.POSITIVE_INFINITY);
    }

    /**
     * How far a signal may have gone beyond sample {@code k} without being seen. A signal with |x″| ≤ a lies within
     * a·P²/8 of the straight line between two samples P apart (error bound of linear interpolation), so it exceeds the
     * higher of them by at most that. The acceleration is the largest second divided difference around k, and P the
     * wider of the two intervals beside it.
     */
    static double hiddenBeyond(Trace trace, double[] values, int k) {
        double curvature = 0;
        for (int centre = Math.max(1, k - 1); centre <= Math.min(values.length - 2, k + 1); centre++) {
            curvature = Math.max(curvature, Math.abs(secondDerivative(trace, values, centre)));
        }
        double before = k > 0 ? trace.time(k) - trace.time(k - 1) : 0;
        double after = k < values.length - 1 ? trace.time(k + 1) - trace.time(k) : 0;
        double period = Math.max(before, after);
        return curvature * period * period / 8;
    }

    /**
     * What a peak value may hide between samples, in the unit of the signal.
     *
     * @param above how much higher than the largest sample the true peak may be, a·P²/8 over the higher of two samples
     * @param unplaced a·P²/2 of the same a and P: how far the signal may go in P from a sample at which it turned, if nothing
     *     is known of where the other samples lie
     */
    record Hidden(double above, double unplaced) {

        /** The same in another unit. */
        Hidden times(double factor) {
            return new Hidden(above * factor, unplaced * factor);
        }
    }

    /**
     * What the largest sample may hide, wherever in the trace: beside it, as {@link #hiddenBeyond}, or in another interval
     * whose samples are lower but so far apart that the peak may have passed between them.
     *
     * @param signal as sampled; a size has bends at zero that are no acceleration
     * @param heights what the peak is the largest of, such as the size of the signal
     * @param peak where {@code heights} is largest
     */
    static Hidden hiddenAbove(Trace trace, double[] signal, double[] heights, int peak) {
        double above = hiddenBeyond(trace, signal, peak);
        double height = above;
        for (int i = 0; i + 1 < signal.length; i++) {
            double interval = trace.time(i + 1) - trace.time(i);
            double here = largestCurvature(trace, signal, i) * interval * interval / 8;
            double excess = Math.max(heights[i], heights[i + 1]) + here - heights[peak];
            if (excess > above) {
                above = excess;
                height = here;
            }
        }
        return new Hidden(above, 4 * height);
    }

    /**
     * How far the mean of a signal over the time of a trace may be off because of gaps: in each the mean may leave that of
     * the two samples around it by two thirds of what it hides, a·P²/8 (parabola), for its share of the time.
     */
    static Contribution gaps(Trace trace, double[] x, double factor) {
        List<Gap> gaps = trace.gaps();
        double[] times = trace.times();
        double sum = 0;
        for (Gap gap : gaps) {
            double curvature = largestCurvature(trace, x, Arrays.binarySearch(times, gap.from()));
            sum += 2 * (curvature * gap.length() * gap.length() / 8) / 3 * gap.length();
        }
        double time = trace.size() < 2 ? 1 : trace.time(trace.size() - 1) - trace.time(0);
        return Contribution.rectangular(
                "signal in gaps", told(gaps), gaps.isEmpty() ? 0 : Math.abs(factor) * sum / time);
    }

    private static String told(List<Gap> gaps) {
        double longest = gaps.stream().mapToDouble(Gap::length).max().orElse(0);
        return (gaps.size() == 1 ? "one gap" : gaps.size() + " gaps") + " between samples, up to "
                + Printed.brief(longest * 1e3) + " ms";
    }

    /**
     * Standard deviation of a single one of the last samples, at most fifty, without what steps bring, q²/12. Third differences of noise
     * have 20 times its variance, and those of a smooth motion are small; their median is not moved by gaps and by the end of an
     * approach. A motion that is sampled unevenly would show as noise, therefore only the end counts. 0 with fewer than four samples.
     */
    static double noise(double[] all, double quantum) {
        double[] x = Arrays.copyOfRange(all, Math.max(0, all.length - Rest.MOST), all.length);
        double[] differences = new double[Math.max(0, x.length - 3)];
        Arrays.setAll(differences, i -> Math.abs(x[i + 3] - 3 * x[i + 2] + 3 * x[i + 1] - x[i]));
        Arrays.sort(differences);
        double median = differences.length == 0 ? 0 : differences[differences.length / 2];
        double largest = Arrays.stream(x).map(Math::abs).max().orElse(0);
        double seen = median <= ROUNDING * ROUNDING * largest ? 0 : median / NORMAL_QUARTILE / Math.sqrt(20);
        return Math.sqrt(Math.max(0, seen * seen - quantum * quantum / 12));
    }

    /** Index of the first of the largest values; 0 of none. */
    static int largest(double[] values) {
        int largest = 0;
        for (int i = 1; i < values.length; i++) {
            largest = values[i] > values[largest] ? i : largest;
        }
        return largest;
    }

    /** Largest second divided difference around the two samples from {@code i} on. */
    private static double largestCurvature(Trace trace, double[] x, int i) {
        double curvature = 0;
        for (int centre = Math.max(1, i); centre <= Math.min(x.length - 2, i + 1); centre++) {
            curvature = Math.max(curvature, Math.abs(secondDerivative(trace, x, centre)));
        }
        return curvature;
    }

    private static double secondDerivative(Trace trace, double[] x, int i) {
        double before = trace.time(i) - trace.time(i - 1);
        double after = trace.time(i + 1) - trace.time(i);
        if (before <= 0 || after <= 0) {
            return 0;
        }
        return 2 * ((x[i + 1] - x[i]) / after - (x[i] - x[i - 1]) / before) / (before + after);
    }

    /**
     * Half-width, in seconds, within which time zero is the moment at which the drive got the command. Time zero is the
     * middle of that exchange, whose round trip a trace does not hold; it is taken to be like those of the samples, and
     * so by their root mean square, which is what enters a variance.
     */
    static double commandHalfWidth(Trace trace) {
        return usualHalfWidth(trace);
    }

    /** Root mean square of half the round trips, seconds; 0 without samples. */
    static double usualHalfWidth(Trace trace) {
        double squares = 0;
        for (int i = 0; i < trace.size(); i++) {
            squares += trace.timeHalfWidth(i) * trace.timeHalfWidth(i);
        }
        return trace.size() == 0 ? 0 : Math.sqrt(squares / trace.size());
    }

    /** Moment of the command, rectangular, times a speed; 1 for a time. */
    static Contribution command(Trace trace, double speed) {
        double half = commandHalfWidth(trace);
        return Contribution.rectangular(
                "moment of the command",
                "half a round trip is about " + Printed.brief(half * 1e3) + " ms",
                Math.abs(speed) * half);
    }

    /** Refuses a number that would make every comparison false. */
    static double requireFinite(String what, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(what + " must be finite, got " + value);
        }
        return value;
    }

    /** Refuses a time window that is empty or turned round. */
    static void requireWindow(double from, double to) {
        requireFinite("begin of the window", from);
        requireFinite("end of the window", to);
        if (from >= to) {
            throw new IllegalArgumentException(
                    "the window must end after it begins, got " + from + " s to " + to + " s");
        }
    }
}
