package org.axtrial.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Mark;

/** Draws curves as one SVG element, over time unless another axis is named. Colours and strokes come from the style sheet of the page. */
final class Plot {

    /** A shaded range of values, from {@code low} to {@code high}. */
    record Band(double low, double high) {}

    /** A single value with its uncertainty to either side; hollow if it does not count. */
    record Dot(double x, double y, double uncertainty, boolean counts) {}

    /** Half the side of a dot. */
    private static final double DOT = 2.2;

    private static final double WIDTH = 380;
    private static final double HEIGHT = 180;
    /** Room for the label of the values and the gap to the axis. */
    private static final double BESIDE_TICKS = 24;
    /** A curve is drawn to a twentieth of a millimetre on paper, which no pen and no eye follows. */
    private static final double TOLERANCE = 0.12;

    private static final double RIGHT = 10;
    private static final double BOTTOM = 34;
    private static final double TOP = 12;
    private static final double LABEL_ROW = 12;
    /** Mean width of a character of the labels, in the units of the drawing. */
    private static final double CHARACTER = 5.6;
    /** Mean width of a figure of the ticks. */
    private static final double FIGURE = 6.4;

    private final String id;
    private final String title;
    private final String description;
    private final String yLabel;
    private final List<Line> lines = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private final List<Dot> dots = new ArrayList<>();
    private Optional<Band> band = Optional.empty();
    private String xLabel = "time after the command / s";
    private double xLow;
    private double xHigh;
    private double yLow = Double.POSITIVE_INFINITY;
    private double yHigh = Double.NEGATIVE_INFINITY;
    private double top = TOP;
    private double left = BESIDE_TICKS;
    private double leastHeight;

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

    Plot lines(List<Line> more) {
        lines.addAll(more);
        return this;
    }

    Plot dots(List<Dot> values) {
        dots.addAll(values);
        return this;
    }

    /** What runs along the horizontal axis, in place of the time after a command. */
    Plot across(String label) {
        xLabel = label;
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
                .forEach(this::mark);
        return this;
    }

    /** Two names for one instant share a line. */
    private void mark(Mark mark) {
        int last = marks.size() - 1;
        if (last >= 0 && marks.get(last).seconds() == mark.seconds()) {
            Mark other = marks.remove(last);
            marks.add(new Mark(other.label() + ", " + mark.label(), mark.seconds()));
        } else {
            marks.add(mark);
        }
    }

    /** Fixes the range of values; curves are cut off outside. */
    Plot values(double low, double high) {
        yLow = low;
        yHigh = high;
        return this;
    }

    /** Shows at least so much of the values, so that the last step of an encoder does not look like a motion. */
    Plot leastHeight(double height) {
        leastHeight = height;
        return this;
    }

    String svg() {
        if (yLow > yHigh) {
            fitValues();
        }
        Ticks up = new Ticks(yLow, yHigh, 5);
        left = BESIDE_TICKS
                + FIGURE
                        * up.values().stream()
                                .mapToInt(value -> up.text(value).length())
                                .max()
                                .orElse(1);
        List<Integer> rows = labelRows();
        top = TOP + LABEL_ROW * rows.stream().mapToInt(row -> row + 1).max().orElse(0);
        StringBuilder out = new StringBuilder();
        out.append(SvgText.format(
                "<svg class=\"plot\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-labelledby=\"%s-t %s-d\">",
                WIDTH, HEIGHT, id, id));
        out.append(SvgText.format("<title id=\"%s-t\">%s</title>", id, escape(title)));
        out.append(SvgText.format("<desc id=\"%s-d\">%s</desc>", id, escape(description)));
        out.append(SvgText.format(
                "<clipPath id=\"%s-c\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/></clipPath>",
                id, left, top, WIDTH - left - RIGHT, HEIGHT - BOTTOM - top));
        drawBand(out);
        drawAxes(out, up);
        drawMarks(out, rows);
        for (Line line : lines) {
            drawLine(out, line);
        }
        dots.forEach(dot -> drawDot(out, dot));
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
        double least = leastHeight > 0 ? leastHeight : height > 0 ? 0 : 2 * Math.max(1, Math.abs(yHigh) / 10);
        double spare = Math.max(height, least) / 20 + Math.max(0, least - height) / 2;
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
                out.append(SvgText.format(
                        "<rect class=\"band\" x=\"%.1f\" y=\"%.2f\" width=\"%.1f\" height=\"%.2f\"/>",
                        left, upper, WIDTH - left - RIGHT, Math.max(0.6, lower - upper)));
            }
        });
    }

    private void drawAxes(StringBuilder out, Ticks up) {
        Ticks across = new Ticks(xLow, xHigh, 6);
        for (double value : up.values()) {
            out.append(SvgText.format(
                    "<line class=\"%s\" x1=\"%.1f\" x2=\"%.1f\" y1=\"%.2f\" y2=\"%.2f\"/>",
                    value == 0 ? "zero" : "grid", left, WIDTH - RIGHT, y(value), y(value)));
            out.append(SvgText.format(
                    "<text class=\"tick\" x=\"%.1f\" y=\"%.2f\" text-anchor=\"end\">%s</text>",
                    left - 5, y(value) + 3.5, up.text(value)));
        }
        for (double value : across.values()) {
            out.append(SvgText.format(
                    "<line class=\"axis\" x1=\"%.2f\" x2=\"%.2f\" y1=\"%.1f\" y2=\"%.1f\"/>",
                    x(value), x(value), HEIGHT - BOTTOM, HEIGHT - BOTTOM + 3));
            out.append(SvgText.format(
                    "<text class=\"tick\" x=\"%.2f\" y=\"%.1f\" text-anchor=\"middle\">%s</text>",
                    x(value), HEIGHT - BOTTOM + 14, across.text(value)));
        }
        out.append(SvgText.format(
                "<path class=\"axis\" d=\"M%.1f %.1fV%.1fH%.1f\"/>", left, top, HEIGHT - BOTTOM, WIDTH - RIGHT));
        out.append(SvgText.format(
                "<text class=\"label\" x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%s</text>",
                WIDTH - RIGHT, HEIGHT - 5, escape(xLabel)));
        out.append(SvgText.format(
                "<text class=\"label\" transform=\"translate(10 %.1f) rotate(-90)\" text-anchor=\"middle\">%s</text>",
                (top + HEIGHT - BOTTOM) / 2, escape(yLabel)));
    }

    private void drawLine(StringBuilder out, Line line) {
        StringBuilder path = new StringBuilder();
        List<double[]> drawn = line.points().stream()
                .map(point -> new double[] {x(point[0]), y(point[1])})
                .toList();
        for (double[] point : Line.straightened(drawn, TOLERANCE)) {
            path.append(path.length() == 0 ? 'M' : 'L')
                    .append(tenth(point[0]))
                    .append(' ')
                    .append(tenth(point[1]));
        }
        out.append(SvgText.format("<path class=\"%s\" clip-path=\"url(#%s-c)\" d=\"%s\"/>", line.style(), id, path));
    }

    private void drawDot(StringBuilder out, Dot dot) {
        double upper = Math.max(top, y(dot.y() + dot.uncertainty()));
        double lower = Math.min(HEIGHT - BOTTOM, y(dot.y() - dot.uncertainty()));
        if (lower > upper) {
            out.append(SvgText.format(
                    "<line class=\"axis\" x1=\"%.2f\" x2=\"%.2f\" y1=\"%.2f\" y2=\"%.2f\"/>",
                    x(dot.x()), x(dot.x()), upper, lower));
        }
        out.append(SvgText.format(
                "<rect class=\"%s\" x=\"%.2f\" y=\"%.2f\" width=\"%.1f\" height=\"%.1f\"/>",
                dot.counts() ? "dot" : "dot-aside", x(dot.x()) - DOT, y(dot.y()) - DOT, 2 * DOT, 2 * DOT));
    }

    private void drawMarks(StringBuilder out, List<Integer> rows) {
        for (int i = 0; i < marks.size(); i++) {
            Mark mark = marks.get(i);
            double at = x(mark.seconds());
            double base = TOP + LABEL_ROW * rows.get(i) + 6;
            out.append(SvgText.format(
                    "<line class=\"mark\" x1=\"%.2f\" x2=\"%.2f\" y1=\"%.1f\" y2=\"%.1f\"/>",
                    at, at, base - 8, HEIGHT - BOTTOM));
            boolean toTheLeft = flips(mark);
            out.append(SvgText.format(
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
        return left + (value - xLow) / (xHigh - xLow) * (WIDTH - left - RIGHT);
    }

    private double y(double value) {
        return HEIGHT - BOTTOM - (value - yLow) / (yHigh - yLow) * (HEIGHT - BOTTOM - top);
    }

    /** A length in the units of the drawing, to a tenth. */
    private static String tenth(double value) {
        long tenths = Math.round(value * 10);
        return tenths % 10 == 0
                ? Long.toString(tenths / 10)
                : BigDecimal.valueOf(tenths, 1).toPlainString();
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
