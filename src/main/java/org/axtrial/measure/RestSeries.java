package org.axtrial.measure;

import java.util.List;
import org.axtrial.quantity.Unit;

/** What rest positions say that were reached again and again: homing, and the same target from both sides. */
public final class RestSeries {

    private RestSeries() {}

    /**
     * Spread of homing: four standard deviations of the positions found, as ISO 230-2 takes it for unidirectional
     * repeatability.
     *
     * <p>Uncertainty: 4 s times what n − 1 degrees of freedom make of a standard deviation ({@link
     * DeviationSpread}); resolution, triangular.
     *
     * @param positions position of one and the same mark after each homing, at least two
     * @param unit of the positions
     * @param source who read them
     * @param resolution smallest step, not negative
     */
    public static Measurement homingSpread(List<Double> positions, Unit unit, Source source, double resolution) {
        Scatter scatter = independent(positions, 2);
        int n = positions.size();
        return draft(
                        "homing spread",
                        "Four standard deviations of the positions after homing.",
                        unit,
                        source,
                        resolution)
                .add(new Contribution(
                        "spread of the deviation",
                        Contribution.Evaluation.A,
                        n + " homings",
                        4 * scatter.deviation() * DeviationSpread.relative(n - 1),
                        n - 1))
                .value(4 * scatter.deviation());
    }

    /**
     * Range of homing: largest minus smallest position found. It grows with the number of homings.
     *
     * <p>Uncertainty: resolution, triangular.
     */
    public static Measurement homingRange(List<Double> positions, Unit unit, Source source, double resolution) {
        independent(positions, 2);
        double largest = positions.stream().mapToDouble(x -> x).max().orElseThrow();
        double smallest = positions.stream().mapToDouble(x -> x).min().orElseThrow();
        return draft(
                        "homing range",
                        "Largest minus smallest position of " + positions.size() + " homings.",
                        unit,
                        source,
                        resolution)
                .value(largest - smallest);
    }

    /**
     * Lost motion at one target: mean rest position after travel in positive direction minus that after travel in negative
     * direction. From the feedback of a motor it shows no backlash behind the motor.
     *
     * <p>Uncertainty: s/√n of both means; of the resolution what scatter leaves of it in each mean ({@link Dither}).
     *
     * @param up positions after travel in positive direction, at least two
     * @param down positions after travel in negative direction, at least two
     * @return signed: negative when the axis falls short in both directions
     */
    public static Measurement lostMotion(
            List<Double> up, List<Double> down, Unit unit, Source source, double resolution) {
        Scatter above = independent(up, 2);
        Scatter below = independent(down, 2);
        String step = "one step is " + Printed.brief(resolution, unit);
        return new Draft(
                        "lost motion",
                        "Mean rest position after travel in positive minus that after travel in negative direction.",
                        unit)
                .source(source)
                .resolution(resolution)
                .add(Contribution.rectangular(
                        "resolution, positive direction", step, Dither.halfWidth(above, resolution)))
                .add(Contribution.rectangular(
                        "resolution, negative direction", step, Dither.halfWidth(below, resolution)))
                .scatter("mean, positive direction", above, "approaches")
                .scatter("mean, negative direction", below, "approaches")
                .value(above.mean() - below.mean());
    }

    private static Draft draft(String name, String definition, Unit unit, Source source, double resolution) {
        return new Draft(name, definition, unit)
                .source(source)
                .resolution(resolution)
                .add(Contribution.triangular(
                        "resolution at both ends", "one step is " + Printed.brief(resolution, unit), resolution));
    }

    private static Scatter independent(List<Double> positions, int fewest) {
        if (positions.size() < fewest) {
            throw new IllegalArgumentException("at least " + fewest + " positions are needed, got " + positions.size());
        }
        positions.forEach(x -> Samples.requireFinite("a position", x));
        return PositioningPoint.of(positions);
    }
}
