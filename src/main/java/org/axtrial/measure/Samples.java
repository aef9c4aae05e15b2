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

    /** Intervals are even if none is so many times another; delays of replies leave less. */
    private static final double EVEN = 2;

    private static final double SHARPEST = 1.25;

    private Samples() {}

    /** The part from the command on. */
    static Trace afterCommand(Trace trace) {
        return trace.between(0, Double.POSITIVE_INFINITY);
    }

    /**
     * How far a signal may have gone beyond sample {@code k}, where it turned, without being seen. A signal with |x″| ≤ a lies within
     * a·P²/8 of the straight line between two samples P apart (error bound of linear interpolation), so it exceeds the
     * higher of them by at most that. P is the wider of the two intervals beside k; the acceleration is that {@link #atTurn at k}, or of
     * uneven intervals the largest second divided difference around k.
     */
    static double hiddenBeyond(Trace trace, double[] values, int k) {
        double before = k > 0 ? trace.time(k) - trace.time(k - 1) : 0;
        double after = k < values.length - 1 ? trace.time(k + 1) - trace.time(k) : 0;
        double period = Math.max(before, after);
        return atTurn(trace, values, k) * period * period / 8;
    }

    /**
     * Acceleration at the turn, half an interval beside k, where most is hidden: of five even samples the second difference with the next
     * term of its series, δ² − δ⁴/12, and with what it changes over half an interval on either side, δ⁴/8. More than a quarter more is no
     * round peak but a jump beside it, for which the series does not hold.
     */
    private static double atTurn(Trace trace, double[] x, int k) {
        if (k < 2 || k > x.length - 3 || !even(trace, k)) {
            return largestCurvature(trace, x, k - 1, k + 1);
        }
        double here = secondDerivative(trace, x, k);
        double beside = secondDerivative(trace, x, k - 1) + secondDerivative(trace, x, k + 1);
        double sharper = Math.abs(here - (beside - 2 * here) * (1.0 / 12 + 1.0 / 8));
        return Math.max(Math.abs(here), Math.min(sharper, SHARPEST * Math.abs(here)));
    }

    private static boolean even(Trace trace, int k) {
        double shortest = Double.POSITIVE_INFINITY;
        double longest = 0;
        for (int i = k - 2; i < k + 2; i++) {
            double interval = trace.time(i + 1) - trace.time(i);
            shortest = Math.min(shortest, interval);
            longest = Math.max(longest, interval);
        }
        return longest <= EVEN * shortest;
    }

    /**
     * How far a signal at time zero may lie from the straight line between the two samples around it: ½·|x″|·d·e at the
     * distances d and e from them (error of linear interpolation), x″ from second differences.
     *
     * @param next index of the first sample not before time zero, at least 1
     */
    static double hiddenAtZero(Trace trace, double[] x, int next) {
        return largestCurvature(trace, x, next - 1, next) * Math.abs(trace.time(next - 1) * trace.time(next)) / 2;
    }

    /**
     * What a peak value may hide between samples, in the unit of the signal.
     *
     * @param above how much higher than the largest sample the true peak may be, a·P²/8 over the higher of two samples
     * @param unplaced a·P²/2 of the same a and P: how far the signal may go in P from a sample at which it turned, if nothing
     *     is known of where the other samples lie
     */
    record Hidden(double above, double unplaced) {

        /**
         * Without the bends that noise alone shows: it falsifies a second difference by √6 of itself.
         *
         * @param noise standard deviation of a single sample with its steps
         */
        Hidden without(double noise) {
            double shown = Math.sqrt(6) * noise / 8;
            double left = above <= shown ? 0 : Math.sqrt(1 - shown * shown / (above * above));
            return times(left);
        }

        /** The same in another unit. */
        Hidden times(double factor) {
            return new Hidden(above * factor, unplaced * factor);
        }
    }

    /**
     * What the largest sample may hide, wherever in the trace: beside it, as {@link #hiddenBeyond}, or in a gap, whose samples may be
     * lower but are so far apart that the peak may have passed between them.
     *
     * @param signal as sampled; a size has bends at zero that are no acceleration
     * @param heights what the peak is the largest of, such as the size of the signal
     * @param peak where {@code heights} is largest
     */
    static Hidden hiddenAbove(Trace trace, double[] signal, double[] heights, int peak) {
        double above = hiddenBeyond(trace, signal, peak);
        double height = above;
        double[] times = trace.times();
        for (Gap gap : trace.gaps()) {
            int i = Arrays.binarySearch(times, gap.from());
            // Nothing shows what is in the gap, so that the two intervals on either side of it are asked too.
            double curvature = largestCurvature(trace, signal, i - 2, i + 3);
            double turn = turn(curvature, gap.length(), Math.abs(signal[i + 1] - signal[i]));
            double excess = Math.max(heights[i], heights[i + 1]) + turn - heights[peak];
            if (excess > above) {
                above = excess;
                height = curvature * gap.length() * gap.length() / 8;
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
            int i = Arrays.binarySearch(times, gap.from());
            double curvature = largestCurvature(trace, x, i, i + 1);
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

    /**
     * How far a signal with |x″| ≤ a may go beyond the higher of two samples P apart that differ by d: the straight line plus
     * ½·a·t·(P − t) is highest by (a·P/2 − d/P)²/(2a) above it, and not at all where the line is steeper than a·P/2.
     */
    private static double turn(double a, double period, double difference) {
        double left = a * period / 2 - difference / period;
        return left <= 0 ? 0 : left * left / (2 * a);
    }

    /** Largest second divided difference at samples from one to another, of those that have a neighbour on either side. */
    private static double largestCurvature(Trace trace, double[] x, int from, int to) {
        double curvature = 0;
        for (int centre = Math.max(1, from); centre <= Math.min(x.length - 2, to); centre++) {
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

    /** What the instant of a sample, known to half its round trip, makes uncertain, rectangular, times a speed or its share of a time. */
    static Contribution instant(String name, double half, double sensitivity) {
        return Contribution.rectangular(
                name, "half a round trip is " + Printed.brief(half * 1e3) + " ms", Math.abs(sensitivity) * half);
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
