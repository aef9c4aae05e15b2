package org.axtrial.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * What was measured at one target position (ISO 230-2:2014, formulas from memory). Deviations are actual minus target
 * position, all in one unit; one for each cycle and direction of approach.
 *
 * @param target target position P_i
 * @param up deviations x_ij of the approaches in positive direction, at least one, finite
 * @param down those of the approaches in negative direction, as many
 */
public record PositioningPoint(double target, List<Double> up, List<Double> down) {

    public PositioningPoint {
        up = List.copyOf(up);
        down = List.copyOf(down);
        Samples.requireFinite("a target position", target);
        up.forEach(x -> Samples.requireFinite("a deviation at " + target, x));
        down.forEach(x -> Samples.requireFinite("a deviation at " + target, x));
        if (up.isEmpty() || up.size() != down.size()) {
            throw new IllegalArgumentException(
                    "a target needs as many approaches from above as from below, at " + target + " there are "
                            + up.size() + " in positive and " + down.size() + " in negative direction");
        }
    }

    /** Number of cycles n. */
    public int cycles() {
        return up.size();
    }

    /** Mean unidirectional deviation x̄_i↑. */
    public double meanUp() {
        return of(up).mean();
    }

    /** Mean unidirectional deviation x̄_i↓. */
    public double meanDown() {
        return of(down).mean();
    }

    /** Mean bidirectional deviation x̄_i. */
    public double mean() {
        return (meanUp() + meanDown()) / 2;
    }

    /** Reversal error B_i = x̄_i↑ − x̄_i↓. */
    public double reversal() {
        return meanUp() - meanDown();
    }

    /** Estimator s_i↑ of the unidirectional repeatability; empty for a single cycle. */
    public OptionalDouble deviationUp() {
        return deviation(up);
    }

    /** Estimator s_i↓; empty for a single cycle. */
    public OptionalDouble deviationDown() {
        return deviation(down);
    }

    /** Bidirectional repeatability R_i = max(2s↑ + 2s↓ + |B|, 4s↑, 4s↓); empty for a single cycle. */
    public OptionalDouble repeatability() {
        if (cycles() < 2) {
            return OptionalDouble.empty();
        }
        double above = of(up).deviation();
        double below = of(down).deviation();
        return OptionalDouble.of(
                Math.max(2 * above + 2 * below + Math.abs(reversal()), Math.max(4 * above, 4 * below)));
    }

    private static OptionalDouble deviation(List<Double> deviations) {
        return deviations.size() < 2
                ? OptionalDouble.empty()
                : OptionalDouble.of(of(deviations).deviation());
    }

    /** The approaches of a direction are minutes apart and taken as independent. */
    static Scatter of(List<Double> deviations) {
        return Scatter.ofIndependent(deviations.stream().mapToDouble(x -> x).toArray());
    }
}
