package org.axtrial.measure;

import java.util.List;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** How far two axes that should go the same way at the same time are apart. */
public final class Skew {

    private Skew() {}

    /**
     * One of the two axes.
     *
     * @param trace recorded on the same clock as the other
     * @param start position before the command, in the unit of the position channel
     * @param acceleration that the axis does not exceed, in that unit per second squared, not negative
     */
    public record Side(Trace trace, double start, double acceleration) {}

    /**
     * Largest difference of the ways of two axes at the same time, each from its own start.
     *
     * <p>At the samples of either, the other is interpolated in a straight line. What may be wrong with such a difference is
     * bounded and added up, not squared: half a step of both positions and of both starts; the speed of each times half of the
     * round trip of its sample; a·P²/8 of the interpolated one; and, for a peak between samples, (a₁ + a₂)·P²/8. The sum is
     * the half-width of one rectangular contribution, so that U holds the truth whenever the bounds hold: it is a worst case,
     * wider than 95 % asks for.
     *
     * @param position name of the position channel of both, in one unit
     * @return not negative; missing if the two were not recorded at the same time
     * @throws IllegalArgumentException if the units differ or a trace has no such channel
     */
    public static Measurement of(Side one, Side other, String position) {
        Channel a = one.trace.channel(position);
        Channel b = other.trace.channel(position);
        if (a.unit() != b.unit()) {
            throw new IllegalArgumentException("the skew of two axes needs positions in one unit, got "
                    + a.unit().symbol() + " and " + b.unit().symbol());
        }
        Draft draft = new Draft(
                        "skew",
                        "Largest difference of the ways of two axes at the same time, each from its own start.",
                        a.unit())
                .from(one.trace)
                .resolution(Math.max(a.quantum(), b.quantum()));
        Course first = new Course(one, position);
        Course second = new Course(other, position);
        double steps = a.quantum() + b.quantum();
        Widest widest = new Widest();
        widest.take(first, second, steps);
        widest.take(second, first, steps);
        if (widest.looks == 0) {
            return draft.missing("the two were not recorded at the same time; move both by one t.moveTogether");
        }
        double gap = Math.max(first.longest(), second.longest());
        double between = (one.acceleration + other.acceleration) * gap * gap / 8;
        double half = Math.max(widest.highest + between - widest.size, widest.size - widest.lowest);
        return draft.mark("skew", widest.at - one.trace.originNanos() * 1e-9)
                .add(Contribution.rectangular(
                        "steps, instants and what lies between samples",
                        "at worst ± " + Printed.brief(half, a.unit()),
                        half))
                .value(widest.size);
    }

    /** The way of an axis over the common clock. */
    private static final class Course {

        private final double[] times;
        private final double[] ways;
        private final double[] halfWidths;
        private final double acceleration;

        Course(Side side, String position) {
            Trace trace = side.trace;
            times = trace.times();
            ways = trace.values(position);
            halfWidths = new double[times.length];
            acceleration = side.acceleration;
            for (int i = 0; i < times.length; i++) {
                halfWidths[i] = trace.timeHalfWidth(i);
                times[i] += trace.originNanos() * 1e-9;
                ways[i] -= side.start;
            }
        }

        double longest() {
            double longest = 0;
            for (int i = 1; i < times.length; i++) {
                longest = Math.max(longest, times[i] - times[i - 1]);
            }
            return longest;
        }

        /** The sample before an instant that has one after it; −1 if it has not. */
        int before(double at) {
            for (int i = 1; i < times.length; i++) {
                if (times[i - 1] <= at && at <= times[i]) {
                    return i - 1;
                }
            }
            return -1;
        }

        double way(int before, double at) {
            double span = times[before + 1] - times[before];
            double part = span > 0 ? (at - times[before]) / span : 0;
            return ways[before] + part * (ways[before + 1] - ways[before]);
        }

        /** Error of a sample for the half-width of its instant, at the highest speed that its neighbours allow. */
        double ofInstant(int i) {
            return speed(i) * halfWidths[i] + acceleration * halfWidths[i] * halfWidths[i] / 2;
        }

        private double speed(int i) {
            double speed = 0;
            for (int left : List.of(i - 1, i)) {
                if (left >= 0 && left + 1 < times.length && times[left + 1] > times[left]) {
                    double span = times[left + 1] - times[left];
                    speed = Math.max(speed, Math.abs(ways[left + 1] - ways[left]) / span + acceleration * span);
                }
            }
            return speed;
        }

        /** Error of the straight line between two samples. */
        double ofLine(int before) {
            double span = times[before + 1] - times[before];
            return Math.max(ofInstant(before), ofInstant(before + 1)) + acceleration * span * span / 8;
        }
    }

    /** The widest difference so far, and how wide it may be at least and at most. */
    private static final class Widest {

        private int looks;
        private double size = -1;
        private double at;
        private double lowest;
        private double highest;

        void take(Course sampled, Course drawn, double steps) {
            for (int i = 0; i < sampled.times.length; i++) {
                int before = drawn.before(sampled.times[i]);
                if (before < 0) {
                    continue;
                }
                looks++;
                double difference = Math.abs(sampled.ways[i] - drawn.way(before, sampled.times[i]));
                double error = steps + sampled.ofInstant(i) + drawn.ofLine(before);
                lowest = Math.max(lowest, difference - error);
                highest = Math.max(highest, difference + error);
                if (difference > size) {
                    size = difference;
                    at = sampled.times[i];
                }
            }
        }
    }
}
