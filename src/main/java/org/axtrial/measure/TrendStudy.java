package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * How a value went over several runs, and whether it drifts.
 *
 * <p>Three signs are looked for, each with a rule of its own; one is enough:
 *
 * <ul>
 *   <li>a value outside the control limits of {@link IndividualsChart} (NIST/SEMATECH e-Handbook of Statistical Methods,
 *       6.3.2.2), x̄ ± 2.66·MR̄;
 *   <li>eight values one after the other on one side of their mean (rules of the Western Electric handbook of 1956);
 *   <li>a slope of the line through all values that differs from zero at 99 % (Student’s t with n − 2 degrees of freedom).
 *       Its standard error comes from the scatter about the line, or from the uncertainties of the values where these
 *       explain more, so that a drift inside what the measurement can tell is none. Both are taken as independent from run
 *       to run; what all runs have in common moves no slope.
 * </ul>
 *
 * <p>When the line meets a limit follows from Fieller’s theorem (1954) at 95 %, and is told only if the slope is one of the
 * signs. Nothing is told beyond the end of a time as long as the one that was watched; that bound is common practice
 * without a source.
 *
 * @param chart control limits; empty below {@link #LEAST_FOR_CHART} values
 * @param outside indices of the values outside these
 * @param oneSide the largest number of values one after the other on one side of their mean
 * @param slope of the line through all values; empty below three values or without time between them
 * @param meeting when the line meets a limit, if that can be told
 */
public record TrendStudy(
        Optional<IndividualsChart> chart,
        List<Integer> outside,
        int oneSide,
        Optional<Slope> slope,
        Optional<Meeting> meeting) {

    /** Fewer values give no control limits: common practice, no source. */
    public static final int LEAST_FOR_CHART = 5;

    /** With fewer values the control limits may still move much: common practice, no source. */
    public static final int SURE_CHART = 20;

    private static final int ONE_SIDE = 8;
    private static final int LEAST_FOR_SLOPE = 3;
    private static final double SIGNIFICANT = 0.99;
    private static final double INTERVAL = 0.95;

    /** What shows that a value does not stay where it was. */
    public enum Sign {
        OUTSIDE_CONTROL_LIMITS,
        ONE_SIDE_OF_THE_MEAN,
        SLOPE
    }

    /**
     * One value.
     *
     * @param seconds after any fixed instant
     * @param standardUncertainty in the unit of the value, not negative; 0 where nothing is known of it
     */
    public record Point(double seconds, double value, double standardUncertainty) {

        public Point {
            Samples.requireFinite("a time", seconds);
            Samples.requireFinite("a value", value);
            if (!(standardUncertainty >= 0) || standardUncertainty == Double.POSITIVE_INFINITY) {
                throw new IllegalArgumentException(
                        "a standard uncertainty is finite and not negative, got " + standardUncertainty);
            }
        }
    }

    /**
     * The line through all values by least squares.
     *
     * @param perSecond slope, in the unit of the values for each second
     * @param halfWidth of its 95 % interval
     * @param significant whether it differs from zero at 99 %
     * @param start value of the line at the first point
     * @param end value of the line at the last point
     */
    public record Slope(double perSecond, double halfWidth, boolean significant, double start, double end) {}

    /**
     * When the line meets a limit, in seconds as in {@link Point}.
     *
     * @param limit in the unit of the values
     * @param earliest lower end of the 95 % interval, not before the last point
     * @param likely where the line itself meets it; empty if that is too far ahead to tell
     * @param latest upper end of the interval; empty if that is too far ahead to tell
     */
    public record Meeting(double limit, double earliest, OptionalDouble likely, OptionalDouble latest) {}

    public TrendStudy {
        outside = List.copyOf(outside);
    }

    /**
     * Studies values in order of time.
     *
     * @param points in order of time, in one unit
     * @param lower limit of the value, in that unit; empty if there is none
     * @param upper limit of the value, in that unit; empty if there is none
     * @throws IllegalArgumentException if a point is earlier than the one before it
     */
    public static TrendStudy of(List<Point> points, OptionalDouble lower, OptionalDouble upper) {
        for (int i = 1; i < points.size(); i++) {
            if (points.get(i).seconds() < points.get(i - 1).seconds()) {
                throw new IllegalArgumentException("the values of a trend stand in order of time; value " + (i + 1)
                        + " is earlier than the one before it");
            }
        }
        List<Double> values = points.stream().map(Point::value).toList();
        Optional<IndividualsChart> chart =
                values.size() >= LEAST_FOR_CHART ? Optional.of(IndividualsChart.of(values)) : Optional.empty();
        Fit fit = Fit.of(points);
        return new TrendStudy(
                chart,
                // Where no value differs from its neighbour, all are equal and only rounding could tell them from the
                // mean.
                chart.filter(limits -> limits.meanRange() > 0)
                        .map(limits -> limits.outside(values))
                        .orElse(List.of()),
                chart.map(limits -> longestRun(values, limits)).orElse(0),
                Optional.ofNullable(fit).map(Fit::slope),
                fit == null || !fit.slope().significant() ? Optional.empty() : fit.meets(lower, upper));
    }

    /** Which signs of a drift there are; empty if there is none. */
    public List<Sign> signs() {
        List<Sign> signs = new ArrayList<>();
        if (!outside.isEmpty()) {
            signs.add(Sign.OUTSIDE_CONTROL_LIMITS);
        }
        if (oneSide >= ONE_SIDE) {
            signs.add(Sign.ONE_SIDE_OF_THE_MEAN);
        }
        if (slope.filter(Slope::significant).isPresent()) {
            signs.add(Sign.SLOPE);
        }
        return signs;
    }

    private static int longestRun(List<Double> values, IndividualsChart chart) {
        int longest = 0;
        int run = 0;
        int side = 0;
        for (double value : values) {
            int here = chart.meanRange() > 0 ? Double.compare(value, chart.centre()) : 0;
            run = here != 0 && here == side ? run + 1 : here == 0 ? 0 : 1;
            side = here;
            longest = Math.max(longest, run);
        }
        return longest;
    }

    /** @param error standard deviation of one value about the line */
    private record Fit(LineFit line, double error, double first, double last, double meanX, double meanY) {

        static @Nullable Fit of(List<Point> points) {
            int n = points.size();
            if (n < LEAST_FOR_SLOPE
                    || points.get(0).seconds() == points.get(n - 1).seconds()) {
                return null;
            }
            // Counted from the first point, so that no digits are lost to a far zero.
            double first = points.get(0).seconds();
            double[] x = points.stream()
                    .mapToDouble(point -> point.seconds() - first)
                    .toArray();
            double[] y = points.stream().mapToDouble(Point::value).toArray();
            LineFit line = LineFit.of(x, y);
            double meanX = 0;
            double told = 0;
            for (int i = 0; i < n; i++) {
                meanX += x[i] / n;
            }
            for (int i = 0; i < n; i++) {
                double u = (x[i] - meanX) * points.get(i).standardUncertainty();
                told += u * u;
            }
            double ofUncertainties = Math.sqrt(told / line.sumX());
            return new Fit(
                    line,
                    Math.max(line.residual(), ofUncertainties),
                    first,
                    points.get(n - 1).seconds(),
                    meanX,
                    line.intercept() + line.slope() * meanX);
        }

        Slope slope() {
            double standard = error / Math.sqrt(line.sumX());
            return new Slope(
                    line.slope(),
                    CoverageFactor.twoSided(INTERVAL, line.freedom()) * standard,
                    // A line without any scatter has nothing to be held against but the digits of a double.
                    Math.abs(line.slope()) > CoverageFactor.twoSided(SIGNIFICANT, line.freedom()) * standard
                            && Math.abs(line.slope()) * (last - first) > 1e-9 * Math.abs(meanY),
                    line.intercept(),
                    at(last - first));
        }

        private double at(double x) {
            return meanY + line.slope() * (x - meanX);
        }

        Optional<Meeting> meets(OptionalDouble lower, OptionalDouble upper) {
            OptionalDouble limit = line.slope() > 0 ? upper : lower;
            double span = last - first;
            if (limit.isEmpty() || (limit.getAsDouble() - at(span)) * Math.signum(line.slope()) <= 0) {
                return Optional.empty();
            }
            double t = CoverageFactor.twoSided(INTERVAL, line.freedom());
            double slope = line.slope();
            double g = t * t * error * error / (slope * slope * line.sumX());
            double reach = (limit.getAsDouble() - meanY) / slope;
            double width = t * error / Math.abs(slope) * Math.sqrt((1 - g) / line.n() + reach * reach / line.sumX());
            double earliest = Math.max(span, meanX + (reach - width) / (1 - g));
            double latest = meanX + (reach + width) / (1 - g);
            if (earliest > 2 * span) {
                return Optional.empty();
            }
            return Optional.of(new Meeting(
                    limit.getAsDouble(), first + earliest, within(2 * span, meanX + reach), within(2 * span, latest)));
        }

        private OptionalDouble within(double most, double x) {
            return x <= most ? OptionalDouble.of(first + x) : OptionalDouble.empty();
        }
    }
}
