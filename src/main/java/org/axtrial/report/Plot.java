package org.axtrial.report;

import com.google.errorprone.annotations.FormatMethod;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.measure.Mark;

/** Draws curves over time as one SVG element. Colours and strokes come from the style sheet of the page. */
final class Plot {

    /** A shaded range of values, from {@code low} to {@code high}. */
    record Band(double low, double high) {}

    private static final double WIDTH = 380;
    private static final double HEIGHT = 210;
    private static final double LEFT = 52;
    private static final double RIGHT = 10;
    private static final double BOTTOM = 34;
    private static final double TOP = 12;
    private static final double LABEL_ROW = 12;
    /** Mean width of a character of the labels, in the units of the drawing. */
    private static final double CHARACTER = 5.6;

    private final String id;
    private final String title;
    private final String description;
    private final String yLabel;
    private final List<Line> lines = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private Optional<Band> band = Optional.empty();
    private double xLow;
    private double xHigh;
    private double yLow = Double.POSITIVE_INFINITY;
    private double yHigh = Double.NEGATIVE_INFINITY;
    private double top = TOP;

    /**
     * @param id unique on the page, letters, digits and hyphens
     * @param description what a person who cannot see it needs to know
     */
    Plot(String id, String title, String description, String yLabel, double xLow, double xHigh) {
        this.id = id;
        this.title = title;
        this.description = description;
        this.yLabel = yLabel;
        this.xLow = xLow;
        this.xHigh = xHigh > xLow ? xHigh : xLow + 1e-3;
    }

    Plot line(Line line) {
        lines.add(line);
        return this;
    }

    Plot band(Optional<Band> range) {
        band = range;
        return this;
    }

    Plot marks(List<Mark> instants) {
        instants.stream()
                .filter(mark -> mark.seconds() >= xLow && mark.seconds() <= xHigh)
                .sorted(Comparator.comparingDouble(Mark::seconds))
                .forEach(marks::add);
        return this;
    }

    /** Fixes the range of values; curves are cut off outside. */
    Plot values(double low, double high) {
        yLow = low;
        yHigh = high;
        return this;
    }

    String svg() {
        if (yLow > yHigh) {
            fitValues();
        }
        List<Integer> rows = labelRows();
        top = TOP + LABEL_ROW * rows.stream().mapToInt(row -> row + 1).max().orElse(0);
        StringBuilder out = new StringBuilder();
        out.append(format(
                "<svg class=\"plot\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-labelledby=\"%s-t %s-d\">",
                WIDTH, HEIGHT, id, id));
        out.append(format("<title id=\"%s-t\">%s</title>", id, escape(title)));
        out.append(format("<desc id=\"%s-d\">%s</desc>", id, escape(description)));
        out.append(format(
                "<clipPath id=\"%s-c\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/></clipPath>",
                id, LEFT, top, WIDTH - LEFT - RIGHT, HEIGHT - BOTTOM - top));
        drawBand(out);
        drawAxes(out);
        drawMarks(out, rows);
        for (Line line : lines) {
            drawLine(out, line);
        }
        return out.append("</svg>").toString();
    }

    private void fitValues() {
        for (Line line : lines) {
            for (double[] point : line.points()) {
                include(point[1]);
            }
        }
        band.ifPresent(range -> {
            include(range.low());
            include(range.high());
        });
        if (yLow > yHigh) {
            include(0);
        }
        // A curve that does not move still needs a height; a twentieth keeps the ends off the frame.
        double height = yHigh - yLow;
        double spare = height > 0 ? height / 20 : Math.max(1, Math.abs(yHigh) / 10);
        yLow -= spare;
        yHigh += spare;
    }

    private void include(double value) {
        yLow = Math.min(yLow, value);
        yHigh = Math.max(yHigh, value);
    }

    private void drawBand(StringBuilder out) {
        band.ifPresent(range -> {
            double upper = Math.max(top, y(range.high()));
            double lower = Math.min(HEIGHT - BOTTOM, y(range.low()));
            // A band thinner than a hair would vanish, so it is drawn with its edges in any case.
            if (lower >= upper) {
                out.append(format(
                        "<rect class=\"band\" x=\"%.1f\" y=\"%.2f\" width=\"%.1f\" height=\"%.2f\"/>",
                        LEFT, upper, WIDTH - LEFT - RIGHT, Math.max(0.6, lower - upper)));
            }
        });
    }

    private void drawAxes(StringBuilder out) {
        Ticks across = new Ticks(xLow, xHigh, 6);
        Ticks up = new Ticks(yLow, yHigh, 5);
        for (double value : up.values()) {
            out.append(format(
                    "<line class=\"%s\" x1=\"%.1f\" x2=\"%.1f\" y1=\"%.2f\" y2=\"%.2f\"/>",
                    value == 0 ? "zero" : "grid", LEFT, WIDTH - RIGHT, y(value), y(value)));
            out.append(format(
                    "<text class=\"tick\" x=\"%.1f\" y=\"%.2f\" text-anchor=\"end\">%s</text>",
                    LEFT - 5, y(value) + 3.5, up.text(value)));
        }
        for (double value : across.values()) {
            out.append(format(
                    "<line class=\"axis\" x1=\"%.2f\" x2=\"%.2f\" y1=\"%.1f\" y2=\"%.1f\"/>",
                    x(value), x(value), HEIGHT - BOTTOM, HEIGHT - BOTTOM + 3));
            out.append(format(
                    "<text class=\"tick\" x=\"%.2f\" y=\"%.1f\" text-anchor=\"middle\">%s</text>",
                    x(value), HEIGHT - BOTTOM + 14, across.text(value)));
        }
        out.append(
                format("<path class=\"axis\" d=\"M%.1f %.1fV%.1fH%.1f\"/>", LEFT, top, HEIGHT - BOTTOM, WIDTH - RIGHT));
        out.append(format(
                "<text class=\"label\" x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">time after the command / s</text>",
                WIDTH - RIGHT, HEIGHT - 5));
        out.append(format(
                "<text class=\"label\" transform=\"translate(10 %.1f) rotate(-90)\" text-anchor=\"middle\">%s</text>",
                (top + HEIGHT - BOTTOM) / 2, escape(yLabel)));
    }

    private void drawLine(StringBuilder out, Line line) {
        StringBuilder path = new StringBuilder();
        for (double[] point : line.points()) {
            path.append(path.length() == 0 ? 'M' : 'L').append(format("%.1f %.2f", x(point[0]), y(point[1])));
        }
        out.append(format("<path class=\"%s\" clip-path=\"url(#%s-c)\" d=\"%s\"/>", line.style(), id, path));
    }

    private void drawMarks(StringBuilder out, List<Integer> rows) {
        for (int i = 0; i < marks.size(); i++) {
            Mark mark = marks.get(i);
            double at = x(mark.seconds());
            double base = TOP + LABEL_ROW * rows.get(i) + 6;
            out.append(format(
                    "<line class=\"mark\" x1=\"%.2f\" x2=\"%.2f\" y1=\"%.1f\" y2=\"%.1f\"/>",
                    at, at, base - 8, HEIGHT - BOTTOM));
            boolean toTheLeft = flips(mark);
            out.append(format(
                    "<text class=\"mark-label\" x=\"%.2f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>",
                    toTheLeft ? at - 3 : at + 3, base, toTheLeft ? "end" : "start", escape(label(mark))));
        }
    }

    /** Puts each label into the first row where it touches no other label and no line that passes through. */
    private List<Integer> labelRows() {
        List<Integer> rows = new ArrayList<>();
        List<double[]> taken = new ArrayList<>();
        for (Mark mark : marks) {
            double at = x(mark.seconds());
            double width = label(mark).length() * CHARACTER + 6;
            double from = flips(mark) ? at - width : at - 1;
            double to = flips(mark) ? at + 1 : at + width;
            int row = 0;
            while (collides(taken, row, from, to)) {
                row++;
            }
            rows.add(row);
            taken.add(new double[] {row, from, to});
        }
        return rows;
    }

    private static boolean collides(List<double[]> taken, int row, double from, double to) {
        return taken.stream().anyMatch(other -> (int) other[0] == row && other[1] < to && from < other[2]);
    }

    private boolean flips(Mark mark) {
        return x(mark.seconds()) + label(mark).length() * CHARACTER + 6 > WIDTH;
    }

    private static String label(Mark mark) {
        return mark.label().length() > 28 ? mark.label().substring(0, 27) + "…" : mark.label();
    }

    private double x(double value) {
        return LEFT + (value - xLow) / (xHigh - xLow) * (WIDTH - LEFT - RIGHT);
    }

    private double y(double value) {
        return HEIGHT - BOTTOM - (value - yLow) / (yHigh - yLow) * (HEIGHT - BOTTOM - top);
    }

    @FormatMethod
    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }

    /** Text for HTML and SVG; characters that neither may hold are shown as U+FFFD. */
    static String escape(String text) {
        StringBuilder out = new StringBuilder();
        text.codePoints().forEach(c -> {
            switch (c) {
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '&' -> out.append("&amp;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.appendCodePoint(Words.printable(c));
            }
        });
        return out.toString();
    }
}
