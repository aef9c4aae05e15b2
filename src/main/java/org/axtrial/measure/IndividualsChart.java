package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
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
}
