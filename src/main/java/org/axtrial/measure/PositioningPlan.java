package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;

/**
 * Where a positioning test stops, after ISO 230-2:2014 (from memory): targets P_i = (i − 1)·p + r with a random r, so that
 * they do not fall into step with a periodic error, approached from both sides in a linear test cycle.
 *
 * <p>Linear axes up to 2 m have five targets for each metre, at least five, and five cycles; longer ones a target every
 * 250 mm on average and one cycle, beside which the standard wants a zone of 2 m tested in full. Rotary axes have three
 * targets up to 90°, five up to 180°, eight beyond, and five cycles.
 *
 * @param unit unit of all positions
 * @param targets in growing order
 * @param cycles approaches of each target from each side
 * @param overrun how far beyond the first and the last target the axis turns round
 */
public record PositioningPlan(Unit unit, List<Double> targets, int cycles, double overrun) {

    /** Share of the interval for r when nothing is known of periodic errors. */
    private static final double FREE = 0.3;

    /** The first numbers of java.util.Random are nearly the same for neighbouring seeds; this odd factor parts them. */
    private static final long SPREAD = 0x9E3779B97F4A7C15L;

    public PositioningPlan {
        targets = List.copyOf(targets);
    }

    /** The two directions of approach. */
    public enum Direction {
        UP,
        DOWN
    }

    /**
     * One stop of the test.
     *
     * @param cycle 1 …
     * @param index of the target, 0 …
     * @param direction of the approach
     * @param target position to stop at
     */
    public record Approach(int cycle, int index, Direction direction, double target) {}

    /**
     * Plans a test.
     *
     * @param unit of all positions here, a length or an angle
     * @param low lowest position of the travel to be tested
     * @param high highest position, above {@code low}
     * @param overrun distance for turning round, positive; targets keep it from both ends
     * @param period of the periodic error that is expected (pitch of a screw, of a scale), or 0 if none is known; r is
     *     taken from within one period, but never from more than ± 0.3 of the interval between targets, so that the
     *     targets keep their order
     * @param seed the same seed gives the same targets on every platform
     * @throws IllegalArgumentException if a number makes no sense or the travel is too short
     */
    public static PositioningPlan of(Unit unit, double low, double high, double overrun, double period, long seed) {
        Samples.requireFinite("the lowest position", low);
        Samples.requireFinite("the highest position", high);
        if (!(overrun > 0) || !(period >= 0) || !(high - low > 2 * overrun) || Double.isInfinite(period)) {
            throw new IllegalArgumentException("expected an overrun above 0, a period of 0 or more and a travel longer"
                    + " than both overruns, got overrun " + overrun + ", period " + period + ", travel " + low + " to "
                    + high);
        }
        int count = count(unit, high - low);
        double span = high - low - 2 * overrun;
        double half = Math.min(period / 2, FREE * span / (count - 1 + 2 * FREE));
        if (period == 0) {
            half = FREE * span / (count - 1 + 2 * FREE);
        }
        double interval = (span - 2 * half) / (count - 1);
        Random random = new Random(seed * SPREAD);
        List<Double> targets = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            targets.add(low + overrun + half + i * interval + (2 * random.nextDouble() - 1) * half);
        }
        return new PositioningPlan(unit, targets, isLong(unit, high - low) ? 1 : 5, overrun);
    }

    /** All stops in order: up through all targets, turn round, down through all, and again. */
    public List<Approach> approaches() {
        List<Approach> result = new ArrayList<>();
        for (int cycle = 1; cycle <= cycles; cycle++) {
            for (int i = 0; i < targets.size(); i++) {
                result.add(new Approach(cycle, i, Direction.UP, targets.get(i)));
            }
            for (int i = targets.size() - 1; i >= 0; i--) {
                result.add(new Approach(cycle, i, Direction.DOWN, targets.get(i)));
            }
        }
        return result;
    }

    /** Where the axis turns round below the first target, and where every run up begins. */
    public double turnBelow() {
        return targets.get(0) - overrun;
    }

    /** Where the axis turns round above the last target. */
    public double turnAbove() {
        return targets.get(targets.size() - 1) + overrun;
    }

    private static int count(Unit unit, double travel) {
        if (unit.dimension() == Dimension.ANGLE) {
            double degrees = unit.convert(travel, Unit.DEGREE);
            return degrees <= 90 ? 3 : degrees <= 180 ? 5 : 8;
        }
        if (unit.dimension() != Dimension.LENGTH) {
            throw new IllegalArgumentException("a positioning test needs a length or an angle, got " + unit.symbol());
        }
        double metres = unit.convert(travel, Unit.METRE);
        return isLong(unit, travel) ? (int) Math.ceil(metres / 0.25) + 1 : Math.max(5, (int) Math.ceil(5 * metres));
    }

    private static boolean isLong(Unit unit, double travel) {
        return unit.dimension() == Dimension.LENGTH && unit.convert(travel, Unit.METRE) > 2;
    }
}
