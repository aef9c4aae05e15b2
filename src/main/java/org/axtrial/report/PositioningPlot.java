package org.axtrial.report;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.axtrial.evidence.PositioningRecord;
import org.axtrial.measure.PositioningPoint;
import org.axtrial.quantity.Quantity;

/**
 * The plot of a positioning test as ISO 230-2 draws it: mean deviations over the targets for both directions, with two
 * standard deviations to both sides, and the same numbers as a table.
 */
final class PositioningPlot {

    /** Bars of the two directions stand so much beside each other, as a part of the width. */
    private static final double ASIDE = 0.004;
    /** Half of the width of the end of a bar. */
    private static final double END = 0.006;

    private static final int DIGITS = 4;

    private final String id;
    private final PositioningRecord test;
    private final List<PositioningPoint> points;

    PositioningPlot(String id, PositioningRecord test) {
        this.id = id;
        this.test = test;
        this.points =
                test.targets().stream().map(PositioningRecord.Target::point).toList();
    }

    View.Positioning view() {
        return new View.Positioning(
                svg(), caption(), points.stream().map(this::row).toList());
    }

    private String svg() {
        double first = points.get(0).target();
        double last = points.get(points.size() - 1).target();
        double span = last > first ? last - first : 1;
        double margin = span / 20;
        String unit = test.unit().printed();
        Plot plot = new Plot(
                        id,
                        "Positioning",
                        "Mean deviations at " + Words.count(points.size(), "target", "targets")
                                + " for both directions of approach, with two standard deviations to both sides; the table"
                                + " below has the numbers.",
                        "deviation / " + unit,
                        first - margin,
                        last + margin)
                .across("target position / " + unit);
        bars(plot, "demand", -ASIDE * span, span, PositioningPoint::meanDown, PositioningPoint::deviationDown);
        bars(plot, "actual", ASIDE * span, span, PositioningPoint::meanUp, PositioningPoint::deviationUp);
        return plot.svg();
    }

    private void bars(
            Plot plot,
            String style,
            double aside,
            double span,
            ToDoubleFunction<PositioningPoint> mean,
            Function<PositioningPoint, OptionalDouble> deviation) {
        double[] across =
                points.stream().mapToDouble(point -> point.target() + aside).toArray();
        plot.line(Line.of(style, across, points.stream().mapToDouble(mean).toArray()));
        for (PositioningPoint point : points) {
            deviation.apply(point).ifPresent(s -> {
                double x = point.target() + aside;
                double low = mean.applyAsDouble(point) - 2 * s;
                double high = mean.applyAsDouble(point) + 2 * s;
                plot.line(Line.of(style, new double[] {x, x}, new double[] {low, high}));
                for (double end : new double[] {low, high}) {
                    plot.line(Line.of(style, new double[] {x - END * span, x + END * span}, new double[] {end, end}));
                }
            });
        }
    }

    private String caption() {
        int cycles = points.get(0).cycles();
        return "Full line: approached in positive direction (↑). Dashed line: in negative direction (↓). Bars: two standard"
                + " deviations to both sides" + (cycles < 2 ? ", of which one cycle tells nothing" : "") + ". "
                + Words.count(cycles, "cycle", "cycles") + ". "
                + (test.driveReported()
                        ? "Positions as reported by the drive: they show how well its loop closes, not where the load is."
                        : "Positions read on an instrument.");
    }

    private View.PositioningRow row(PositioningPoint point) {
        return new View.PositioningRow(
                text(point.target()),
                text(point.meanUp()),
                text(point.deviationUp()),
                text(point.meanDown()),
                text(point.deviationDown()),
                text(point.reversal()),
                text(point.repeatability()));
    }

    private String text(OptionalDouble value) {
        return value.isPresent() ? text(value.getAsDouble()) : "–";
    }

    private String text(double value) {
        return Words.minus(new Quantity(value, test.unit()).printed(DIGITS));
    }
}
