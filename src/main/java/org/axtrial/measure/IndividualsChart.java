package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.Unit;
import org.hipparchus.stat.descriptive.moment.Mean;

/**
 * Control limits for single values that come one after the other, such as the following error of each hour of a soak run
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2): x̄ ± 3·MR̄/1.128, where MR̄ is the mean of the sizes of the
 * differences between neighbours.
 *
 * @param centre mean of the values
 * @param lower lower control limit
 * @param upper upper control limit
 * @param meanRange mean moving range MR̄
 * @param rangeUpper upper control limit of the moving range, 3.267·MR̄
 */
public record IndividualsChart(double centre, double lower, double upper, double meanRange, double rangeUpper) {

    /** d₂ for ranges of two values. */
    private static final double D2 = 1.128;
    /** D₄ for ranges of two values. */
    private static final double D4 = 3.267;

    /**
     * Limits from a time when all was well.
     *
     * @param values in order of time, at least two, finite
     */
    public static IndividualsChart of(List<Double> values) {
        if (values.size() < 2) {
            throw new IllegalArgumentException("control limits need at least two values, got " + values.size());
        }
        double[] x = values.stream()
                .mapToDouble(value -> Samples.requireFinite("a value", value))
                .toArray();
        double[] ranges = new double[x.length - 1];
        for (int i = 0; i < ranges.length; i++) {
            ranges[i] = Math.abs(x[i + 1] - x[i]);
        }
        double centre = new Mean().evaluate(x);
        double meanRange = new Mean().evaluate(ranges);
        double width = 3 * meanRange / D2;
        return new IndividualsChart(centre, centre - width, centre + width, meanRange, D4 * meanRange);
    }

    /** Indices of the values that lie outside the limits; a limit itself is inside. */
    public List<Integer> outside(List<Double> values) {
        List<Integer> result = new ArrayList<>();
        for (int i = 0; i < values.size(); i++) {
            if (values.get(i) < lower || values.get(i) > upper) {
                result.add(i);
            }
        }
        return result;
    }

    /**
     * How many of the values lie outside the limits.
     *
     * <p>Uncertainty: a value that is nearer to a limit than one step of the readings may lie on either side of it.
     *
     * @param values in the unit the limits were made of
     * @param source who read them
     * @param resolution smallest step of the values, in their unit, not negative
     */
    public Measurement pointsOutside(List<Double> values, Source source, double resolution) {
        values.forEach(value -> Samples.requireFinite("a value", value));
        long undecided = values.stream()
                .filter(value -> Math.min(Math.abs(value - lower), Math.abs(value - upper)) < resolution)
                .count();
        return new Draft(
                        "points outside the control limits",
                        "Number of the " + values.size() + " values outside mean ± 3 mean moving range/1.128 of the"
                                + " values from a time when all was well (NIST/SEMATECH e-Handbook, 6.3.2.2).",
                        Unit.ONE)
                .source(source)
                .add(Contribution.rectangular(
                        "values at a limit", undecided + " nearer to a limit than one step of the readings", (double)
                                undecided))
                .value(outside(values).size());
    }

    /**
     * One sentence with the limits and one for each value that lies outside: what the count does not tell.
     *
     * @param values in {@code unit}, the one the limits were made of
     */
    public List<String> sentences(List<Double> values, Unit unit) {
        List<String> sentences = new ArrayList<>();
        sentences.add("Control limits " + Printed.brief(lower, unit) + " to " + Printed.brief(upper, unit) + ", mean "
                + Printed.brief(centre, unit));
        for (int i : outside(values)) {
            sentences.add("Value " + (i + 1) + " of " + values.size() + " lies outside the control limits: "
                    + Printed.brief(values.get(i), unit));
        }
        return sentences;
    }
}
