package org.axtrial.quantity;

import java.math.BigInteger;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How counts of the position register become angle or length at the load.
 *
 * <p>One motor revolution gives {@code encoderCounts × gearDenominator / gearNumerator} register counts, because an
 * electronic gear turns {@code numerator / denominator} encoder counts for each register count. The gearbox makes
 * {@code motorTurns / loadTurns} motor revolutions for one load revolution. On a linear axis one load revolution is one
 * {@code lead}, so that a revolution there means a revolution of the screw or pulley. All ratios are kept as whole
 * numbers and reduced.
 *
 * @param encoderCounts encoder counts in one motor revolution, 1 … 2³²
 * @param gearNumerator electronic gear, encoder counts … 1 … 2³¹−1
 * @param gearDenominator … for so many register counts, 1 … 2³¹−1
 * @param motorTurns gearbox, motor side, 1 … 10⁶
 * @param loadTurns gearbox, load side, 1 … 10⁶
 * @param lead travel of a linear axis in one load revolution, positive length; null for a rotary axis
 * @param direction +1 if growing counts are positive travel, −1 if they are negative travel
 */
public record AxisScale(
        long encoderCounts,
        long gearNumerator,
        long gearDenominator,
        long motorTurns,
        long loadTurns,
        @Nullable Quantity lead,
        int direction)
        implements Conversion {

    public AxisScale {
        requireRange("encoder counts per revolution", encoderCounts, 1L << 32);
        requireRange("electronic gear numerator", gearNumerator, Integer.MAX_VALUE);
        requireRange("electronic gear denominator", gearDenominator, Integer.MAX_VALUE);
        requireRange("gearbox motor turns", motorTurns, 1_000_000);
        requireRange("gearbox load turns", loadTurns, 1_000_000);
        if (lead != null && (lead.unit().dimension() != Dimension.LENGTH || lead.value() <= 0)) {
            throw new IllegalArgumentException("the lead must be a positive length, got " + lead);
        }
        if (direction != 1 && direction != -1) {
            throw new IllegalArgumentException("the direction is +1 or -1, got " + direction);
        }
    }

    private static void requireRange(String what, long value, long max) {
        if (value < 1 || value > max) {
            throw new IllegalArgumentException(what + " must be 1 … " + max + ", got " + value);
        }
    }

    /** A rotary axis without gears. */
    public static AxisScale rotary(long countsPerRevolution) {
        return new AxisScale(countsPerRevolution, 1, 1, 1, 1, null, 1);
    }

    /** A linear axis: one motor revolution is one lead. */
    public static AxisScale linear(long countsPerRevolution, Quantity lead) {
        return new AxisScale(countsPerRevolution, 1, 1, 1, 1, lead, 1);
    }

    public boolean isLinear() {
        return lead != null;
    }

    /** The lead of a linear axis, empty for a rotary one. */
    public Optional<Quantity> leadIfLinear() {
        return Optional.ofNullable(lead);
    }

    /** Register counts for one motor revolution. */
    public double countsPerMotorRevolution() {
        return ratio(encoderCounts, gearDenominator, 1, gearNumerator, 1);
    }

    /** Register counts for one load revolution, sign apart. */
    public double countsPerLoadRevolution() {
        return ratio(encoderCounts, gearDenominator, motorTurns, gearNumerator, loadTurns);
    }

    /** Motor revolutions for one load revolution. */
    public double motorPerLoad() {
        return (double) motorTurns / loadTurns;
    }

    /** a·b·c / (d·e), from whole numbers so that it rounds once; this is asked for every sample. */
    private static double ratio(long a, long b, long c, long d, long e) {
        long common = gcd(a, d);
        long first = a / common;
        long below = d / common * e;
        if (first <= Integer.MAX_VALUE && Math.multiplyHigh(first * b, c) == 0 && first * b * c > 0) {
            long above = first * b * c;
            long rest = gcd(above, below);
            return (double) (above / rest) / (double) (below / rest);
        }
        BigInteger above =
                BigInteger.valueOf(first).multiply(BigInteger.valueOf(b)).multiply(BigInteger.valueOf(c));
        BigInteger rest = above.gcd(BigInteger.valueOf(below));
        return above.divide(rest).doubleValue()
                / BigInteger.valueOf(below).divide(rest).doubleValue();
    }

    private static long gcd(long a, long b) {
        return b == 0 ? a : gcd(b, a % b);
    }

    /**
     * Converts positions, speeds and accelerations between count, angle and length at the load. The sign is kept: the
     * {@link #direction} is applied where register values enter and leave, by {@link #fromDrive} and {@link #toDrive}.
     */
    @Override
    public double convert(double value, Unit from, Unit to) {
        if (from.dimension() == to.dimension()) {
            return from.convert(value, to);
        }
        Dimension.Motion motion = from.dimension().motion();
        if (motion == Dimension.Motion.NONE || motion != to.dimension().motion()) {
            throw new IllegalArgumentException("cannot convert " + from.symbol() + " into " + to.symbol());
        }
        return fromRevolutions(toRevolutions(value, from), to);
    }

    /**
     * Turns a value in a drive's unit into the load's unit, with the sign of the axis. A drive tells positions in
     * register counts and speeds in counts or at the motor shaft, so that {@code rpm} there means motor revolutions.
     */
    public double fromDrive(double value, Unit driveUnit, Unit loadUnit) {
        return convert(direction * value / shaftRatio(driveUnit), driveUnit, loadUnit);
    }

    /** Turns a signed value in a unit of the load into a drive's unit; the inverse of {@link #fromDrive}. */
    public double toDrive(double value, Unit loadUnit, Unit driveUnit) {
        return direction * convert(value, loadUnit, driveUnit) * shaftRatio(driveUnit);
    }

    private double shaftRatio(Unit driveUnit) {
        return switch (driveUnit.dimension()) {
            case ANGLE, ANGULAR_SPEED, ANGULAR_ACCELERATION -> motorPerLoad();
            default -> 1;
        };
    }

    /** The unit in which this axis is natural: a rotary axis turns in revolutions, a linear one travels in millimetres. */
    public Unit naturalUnit() {
        return isLinear() ? Unit.MILLIMETRE : Unit.REVOLUTION;
    }

    private double toRevolutions(double value, Unit from) {
        return switch (from.dimension()) {
            case COUNT, COUNT_RATE, COUNT_ACCELERATION -> value / countsPerLoadRevolution();
            case ANGLE -> from.convert(value, Unit.REVOLUTION);
            case ANGULAR_SPEED -> from.convert(value, Unit.REVOLUTION_PER_SECOND);
            case ANGULAR_ACCELERATION -> from.convert(value, Unit.REVOLUTION_PER_SECOND_SQUARED);
            case LENGTH -> from.convert(value, Unit.MILLIMETRE) / leadMillimetres(from);
            case LINEAR_SPEED -> from.convert(value, Unit.MILLIMETRE_PER_SECOND) / leadMillimetres(from);
            case LINEAR_ACCELERATION -> from.convert(value, Unit.MILLIMETRE_PER_SECOND_SQUARED) / leadMillimetres(from);
            default -> throw new IllegalStateException("not a motion unit: " + from.symbol());
        };
    }

    private double fromRevolutions(double revolutions, Unit to) {
        return switch (to.dimension()) {
            case COUNT, COUNT_RATE, COUNT_ACCELERATION -> revolutions * countsPerLoadRevolution();
            case ANGLE -> Unit.REVOLUTION.convert(revolutions, to);
            case ANGULAR_SPEED -> Unit.REVOLUTION_PER_SECOND.convert(revolutions, to);
            case ANGULAR_ACCELERATION -> Unit.REVOLUTION_PER_SECOND_SQUARED.convert(revolutions, to);
            case LENGTH -> Unit.MILLIMETRE.convert(revolutions * leadMillimetres(to), to);
            case LINEAR_SPEED -> Unit.MILLIMETRE_PER_SECOND.convert(revolutions * leadMillimetres(to), to);
            case LINEAR_ACCELERATION ->
                Unit.MILLIMETRE_PER_SECOND_SQUARED.convert(revolutions * leadMillimetres(to), to);
            default -> throw new IllegalStateException("not a motion unit: " + to.symbol());
        };
    }

    private double leadMillimetres(Unit asked) {
        if (lead == null) {
            throw new IllegalArgumentException("this axis is rotary and has no lead, so " + asked.symbol()
                    + " means nothing on it; use deg, rev or count");
        }
        return lead.in(Unit.MILLIMETRE);
    }
}
