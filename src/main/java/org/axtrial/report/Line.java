package org.axtrial.report;

import java.util.ArrayList;
import java.util.List;

/**
 * One curve of a plot. Long curves are thinned to the smallest and the largest sample of each slice of time, so that no
 * peak is lost.
 */
final class Line {

    /** Points kept at most: two for each slice. */
    static final int MOST_POINTS = 800;

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

    String style() {
        return style;
    }

    /** Pairs of x and y. */
    List<double[]> points() {
        return points;
    }
}
