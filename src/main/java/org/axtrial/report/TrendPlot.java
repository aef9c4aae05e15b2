package org.axtrial.report;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.axtrial.evidence.RunTrend.Point;
import org.axtrial.evidence.RunTrend.Series;
import org.axtrial.measure.TrendStudy;

/** Draws the values of one check over the runs: with uncertainty, limits, control limits and the line through them. */
final class TrendPlot {

    /** Limits so far off that the values would fill less than this of the height are left out of the picture. */
    private static final double LEAST_FILLED = 0.1;

    private enum Scale {
        DAYS(86_400),
        HOURS(3_600),
        MINUTES(60),
        SECONDS(1);

        private final double seconds;

        Scale(double seconds) {
            this.seconds = seconds;
        }
    }

    private final Series series;
    private final List<Point> points;
    private final Instant start;
    private final Scale scale;

    private TrendPlot(Series series) {
        this.series = series;
        this.points =
                series.points().stream().filter(p -> p.value().isPresent()).toList();
        this.start = series.points().get(0).at();
        double span = points.isEmpty() ? 0 : seconds(points.get(points.size() - 1));
        this.scale = Scale.values()[span >= 2 * 86_400 ? 0 : span >= 2 * 3_600 ? 1 : span >= 120 ? 2 : 3];
    }

    /** The drawing and what it shows in words; empty with fewer than two values. */
    static Optional<View.Figure> of(Series series, String id) {
        TrendPlot plot = new TrendPlot(series);
        return plot.points.size() < 2 ? Optional.empty() : Optional.of(plot.figure(id));
    }

    private double seconds(Point point) {
        return Duration.between(start, point.at()).toNanos() * 1e-9;
    }

    private double x(double seconds) {
        return seconds / scale.seconds;
    }

    private View.Figure figure(String id) {
        List<Double> shown = shown();
        double low = shown.stream().mapToDouble(Double::doubleValue).min().orElse(0);
        double high = shown.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        boolean limitsSeen = limitsFit(low, high);
        if (limitsSeen) {
            low = Math.min(low, series.lower().orElse(low));
            high = Math.max(high, series.upper().orElse(high));
        }
        double spare = high > low ? (high - low) / 12 : Math.max(Math.abs(high) / 10, 1e-6);
        double bottom = low - spare;
        double top = high + spare;
        double first = x(seconds(points.get(0)));
        double last = x(seconds(points.get(points.size() - 1)));
        double edge = (last - first) / 25;
        String unit = series.unit().printed();
        Plot plot = new Plot(
                        id,
                        TrendWords.name(series),
                        description(),
                        "Value" + (unit.isEmpty() ? "" : " / " + unit),
                        first - edge,
                        last + edge)
                .across(scale.name().toLowerCase(Locale.ROOT) + " after the first run")
                .values(bottom, top);
        if (limitsSeen && (series.lower().isPresent() || series.upper().isPresent())) {
            plot.band(Optional.of(
                    new Plot.Band(series.lower().orElse(bottom), series.upper().orElse(top))));
        }
        series.study().chart().ifPresent(chart -> {
            plot.line(level(chart.lower(), first - edge, last + edge));
            plot.line(level(chart.upper(), first - edge, last + edge));
        });
        series.study()
                .slope()
                .filter(TrendStudy.Slope::significant)
                .ifPresent(slope -> plot.line(Line.of(
                        "actual", new double[] {counted(true), counted(false)}, new double[] {slope.start(), slope.end()
                        })));
        plot.dots(points.stream()
                .map(point -> new Plot.Dot(
                        x(seconds(point)),
                        point.value().getAsDouble(),
                        point.expandedUncertainty(),
                        point.aside().isEmpty()))
                .toList());
        return new View.Figure(TrendWords.name(series), "", caption(limitsSeen), List.of(plot.svg()));
    }

    private static Line level(double value, double from, double to) {
        return Line.of("demand", new double[] {from, to}, new double[] {value, value});
    }

    /** Where the first or the last value that counts stands. */
    private double counted(boolean first) {
        List<Point> counted = points.stream().filter(p -> p.aside().isEmpty()).toList();
        return x(seconds(counted.get(first ? 0 : counted.size() - 1)));
    }

    private List<Double> shown() {
        List<Double> shown = new ArrayList<>();
        for (Point point : points) {
            double value = point.value().getAsDouble();
            shown.add(value);
            shown.add(value - point.expandedUncertainty());
            shown.add(value + point.expandedUncertainty());
        }
        series.study().chart().ifPresent(chart -> {
            shown.add(chart.lower());
            shown.add(chart.upper());
        });
        return shown;
    }

    private boolean limitsFit(double low, double high) {
        double least = Math.min(low, series.lower().orElse(low));
        double most = Math.max(high, series.upper().orElse(high));
        return high - low >= LEAST_FILLED * (most - least);
    }

    private String description() {
        DoubleStream values = points.stream().mapToDouble(p -> p.value().getAsDouble());
        var spread = values.summaryStatistics();
        return Words.count(points.size(), "value", "values") + " from "
                + Words.spoken(spread.getMin(), series.unit()) + " to "
                + Words.spoken(spread.getMax(), series.unit()) + ", the last one "
                + Words.spoken(points.get(points.size() - 1).value().getAsDouble(), series.unit()) + "; limits "
                + Words.minus(series.limits()) + "; " + TrendWords.finding(series) + ".";
    }

    private String caption(boolean limitsSeen) {
        boolean limited = series.lower().isPresent() || series.upper().isPresent();
        return "Limits: " + Words.minus(series.limits())
                + (limited && !limitsSeen ? ", beyond this picture" : "") + ". "
                + TrendWords.control(series)
                        .map(control -> "Control limits: " + control + ".")
                        .orElse("Too few values for control limits.");
    }
}
