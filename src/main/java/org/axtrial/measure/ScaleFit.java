package org.axtrial.measure;

import java.util.List;
import org.axtrial.quantity.Unit;

/**
 * Scale and offset of an axis: a straight line by least squares through measured over commanded positions. The slope is the
 * scale, 1 for a right one; the offset is the intercept at the commanded position 0.
 *
 * <p>The points are taken as independent of each other. The budget's U, with Student's t for n − 2 degrees of freedom, is
 * the half-width of the confidence interval of 95.45 %.
 *
 * @param scale measured over commanded, unit 1
 * @param offset measured at commanded 0, in the unit of the positions
 * @param residual standard deviation about the line, in the unit of the positions: non-linearity and repeatability
 */
public record ScaleFit(Measurement scale, Measurement offset, double residual) {

    /**
     * Fits a scale.
     *
     * @param commanded positions as ordered, at least three and not all the same
     * @param measured positions as read, one for each
     * @param unit unit of both
     * @param source who read the measured ones
     * @param resolution step of the readings, not negative
     * @param instrument what makes the scale of the instrument itself uncertain, in unit 1, for example its certificate
     */
    public static ScaleFit of(
            List<Double> commanded,
            List<Double> measured,
            Unit unit,
            Source source,
            double resolution,
            List<Contribution> instrument) {
        if (commanded.size() != measured.size() || commanded.size() < 3) {
            throw new IllegalArgumentException(
                    "a scale needs at least three positions, each commanded and measured, got " + commanded.size()
                            + " and " + measured.size());
        }
        double[] x = finite("a commanded position", commanded);
        double[] y = finite("a measured position", measured);
        LineFit line = LineFit.of(x, y);
        if (!(line.sumX() > 0)) {
            throw new IllegalArgumentException("all commanded positions are the same; a scale needs a distance");
        }
        double spread = Math.sqrt(line.sumX());
        String how = "s = " + Printed.brief(line.residual(), unit) + " about the line through " + line.n() + " points";
        Draft scale = new Draft(
                        "scale",
                        "Slope of the straight line by least squares through measured over commanded positions.",
                        Unit.ONE)
                .source(source)
                .resolution(resolution / spread)
                .add(new Contribution(
                        "scatter about the line",
                        Contribution.Evaluation.A,
                        how,
                        Distribution.NORMAL,
                        line.residual(),
                        line.residual() > 0 ? line.residual() / line.slopeError() : 1,
                        line.freedom()))
                .add(Contribution.quantisation(
                        "resolution", "one step is " + Printed.brief(resolution, unit), resolution / spread));
        instrument.forEach(scale::add);
        Draft offset = new Draft(
                        "offset",
                        "Intercept, at the commanded position 0, of the straight line by least squares through measured"
                                + " over commanded positions.",
                        unit)
                .source(source)
                .resolution(resolution)
                .add(new Contribution(
                        "scatter about the line",
                        Contribution.Evaluation.A,
                        how,
                        line.interceptError(),
                        line.freedom()))
                .add(Contribution.quantisation(
                        "resolution", "one step is " + Printed.brief(resolution, unit), resolution));
        return new ScaleFit(scale.value(line.slope()), offset.value(line.intercept()), line.residual());
    }

    private static double[] finite(String what, List<Double> values) {
        return values.stream()
                .mapToDouble(value -> Samples.requireFinite(what, value))
                .toArray();
    }
}
