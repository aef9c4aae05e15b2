package org.axtrial.report;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.stream.IntStream;
import org.axtrial.trace.Gap;

/**
 * One curve of a plot. Long curves are thinned to the smallest and the largest sample of each slice of time, so that no
 * peak is lost.
 */
final class Line {

    /** Points kept at most: two for each slice. */
    static final int MOST_POINTS = 800;

    private static final int MOST_GAPS = 30;
    private static final String SEEN = "actual";

    private final String style;
    private final List<double[]> points;

    private Line(String style, List<double[]> points) {
        this.style = style;
        this.points = points;
    }

    /**
     * @param style CSS class
     * @param x growing
     * @param y as long as {@code x}
     */
    static Line of(String style, double[] x, double[] y) {
        List<double[]> points = new ArrayList<>();
        int slices = MOST_POINTS / 2;
        if (x.length <= MOST_POINTS) {
            for (int i = 0; i < x.length; i++) {
                points.add(new double[] {x[i], y[i]});
            }
            return new Line(style, points);
        }
        for (int slice = 0; slice < slices; slice++) {
            int from = (int) ((long) slice * x.length / slices);
            int to = (int) ((long) (slice + 1) * x.length / slices);
            int least = from;
            int most = from;
            for (int i = from; i < to; i++) {
                least = y[i] < y[least] ? i : least;
                most = y[i] > y[most] ? i : most;
            }
            int first = Math.min(least, most);
            int second = Math.max(least, most);
            points.add(new double[] {x[first], y[first]});
            if (second != first) {
                points.add(new double[] {x[second], y[second]});
            }
        }
        return new Line(style, points);
    }

    /**
     * A sampled signal: what was seen as a curve, and over each gap between samples a dotted line, so that nobody takes it for
     * seen. With very many gaps the curve is drawn through, and the caption tells.
     *
     * @param x growing
     * @param y as long as {@code x}
     */
    static List<Line> sampled(double[] x, double[] y) {
        List<Gap> gaps = gaps(x);
        if (gaps.size() > MOST_GAPS) {
            return List.of(of(SEEN, x, y));
        }
        List<Line> lines = new ArrayList<>();
        int first = 0;
        for (Gap gap : gaps) {
            int last = Arrays.binarySearch(x, gap.from());
            lines.add(of(SEEN, Arrays.copyOfRange(x, first, last + 1), Arrays.copyOfRange(y, first, last + 1)));
            first = last + 1;
            lines.add(of("unseen", new double[] {x[last], x[first]}, new double[] {y[last], y[first]}));
        }
        lines.add(of(SEEN, Arrays.copyOfRange(x, first, x.length), Arrays.copyOfRange(y, first, y.length)));
        return lines;
    }

    /** Where a sampled signal is not known, but for the moment of the command. */
    static List<Gap> gaps(double[] times) {
        return Gap.in(times).stream().filter(gap -> !gap.holdsCommand()).toList();
    }

    /**
     * The same curve with the points left out that lie nearer than {@code tolerance} to the straight line between those
     * kept (Douglas and Peucker, 1973). Every point left out is that near to the drawn curve.
     *
     * @param points pairs of x and y in one scale
     */
    static List<double[]> straightened(List<double[]> points, double tolerance) {
        if (points.size() < 3) {
            return points;
        }
        boolean[] kept = new boolean[points.size()];
        kept[0] = true;
        kept[points.size() - 1] = true;
        Deque<int[]> open = new ArrayDeque<>();
        open.push(new int[] {0, points.size() - 1});
        while (!open.isEmpty()) {
            int[] range = open.pop();
            int farthest = range[0];
            double distance = tolerance;
            for (int i = range[0] + 1; i < range[1]; i++) {
                double here = distance(points.get(i), points.get(range[0]), points.get(range[1]));
                if (here > distance) {
                    distance = here;
                    farthest = i;
                }
            }
            if (farthest > range[0]) {
                kept[farthest] = true;
                open.push(new int[] {range[0], farthest});
                open.push(new int[] {farthest, range[1]});
            }
        }
        return IntStream.range(0, points.size())
                .filter(i -> kept[i])
                .mapToObj(points::get)
                .toList();
    }

    /** Distance of a point from the stretch between two others. */
    private static double distance(double[] point, double[] from, double[] to) {
        double dx = to[0] - from[0];
        double dy = to[1] - from[1];
        double square = dx * dx + dy * dy;
        double along = square == 0
                ? 0
                : Math.max(0, Math.min(1, ((point[0] - from[0]) * dx + (point[1] - from[1]) * dy) / square));
        double offX = point[0] - from[0] - along * dx;
        double offY = point[1] - from[1] - along * dy;
        return Math.sqrt(offX * offX + offY * offY);
    }

    String style() {
        return style;
    }

    /** Pairs of x and y. */
    List<double[]> points() {
        return points;
    }
}
