package org.axtrial.quantity;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The units that site files, drive descriptions, scripts and reports may use.
 *
 * <p>A unit is held as its size in a small unit of its dimension (arc second, nanometre, nanometre per minute,
 * microsecond), so that the factors of a revolution, a degree or a millimetre are whole numbers and a conversion between them rounds once.
 * Angles belong to the load side of the axis. A count is one step of the position register and is not an angle or a
 * length until an {@link AxisScale} says so.
 */
public enum Unit {
    REVOLUTION("rev", Dimension.ANGLE, 1_296_000),
    DEGREE("deg", Dimension.ANGLE, 3_600),
    ARC_MINUTE("arcmin", Dimension.ANGLE, 60),
    ARC_SECOND("arcsec", Dimension.ANGLE, 1),
    RADIAN("rad", Dimension.ANGLE, 1_296_000 / (2 * Math.PI)),

    METRE("m", Dimension.LENGTH, 1e9),
    MILLIMETRE("mm", Dimension.LENGTH, 1e6),
    MICROMETRE("um", Dimension.LENGTH, 1e3),

    COUNT("count", Dimension.COUNT, 1),

    REVOLUTION_PER_MINUTE("rpm", Dimension.ANGULAR_SPEED, 1_296_000 / 60),
    REVOLUTION_PER_SECOND("rev/s", Dimension.ANGULAR_SPEED, 1_296_000),
    DEGREE_PER_SECOND("deg/s", Dimension.ANGULAR_SPEED, 3_600),
    RADIAN_PER_SECOND("rad/s", Dimension.ANGULAR_SPEED, 1_296_000 / (2 * Math.PI)),

    METRE_PER_SECOND("m/s", Dimension.LINEAR_SPEED, 60e9),
    METRE_PER_MINUTE("m/min", Dimension.LINEAR_SPEED, 1e9),
    MILLIMETRE_PER_SECOND("mm/s", Dimension.LINEAR_SPEED, 60e6),
    MILLIMETRE_PER_MINUTE("mm/min", Dimension.LINEAR_SPEED, 1e6),

    COUNT_PER_SECOND("count/s", Dimension.COUNT_RATE, 1),

    REVOLUTION_PER_SECOND_SQUARED("rev/s2", Dimension.ANGULAR_ACCELERATION, 1_296_000),
    REVOLUTION_PER_MINUTE_PER_SECOND("rpm/s", Dimension.ANGULAR_ACCELERATION, 1_296_000 / 60),
    DEGREE_PER_SECOND_SQUARED("deg/s2", Dimension.ANGULAR_ACCELERATION, 3_600),
    RADIAN_PER_SECOND_SQUARED("rad/s2", Dimension.ANGULAR_ACCELERATION, 1_296_000 / (2 * Math.PI)),

    METRE_PER_SECOND_SQUARED("m/s2", Dimension.LINEAR_ACCELERATION, 1e9),
    MILLIMETRE_PER_SECOND_SQUARED("mm/s2", Dimension.LINEAR_ACCELERATION, 1e6),

    COUNT_PER_SECOND_SQUARED("count/s2", Dimension.COUNT_ACCELERATION, 1),

    REVOLUTION_PER_SECOND_CUBED("rev/s3", Dimension.ANGULAR_JERK, 1_296_000),
    REVOLUTION_PER_MINUTE_PER_SECOND_SQUARED("rpm/s2", Dimension.ANGULAR_JERK, 1_296_000 / 60),
    METRE_PER_SECOND_CUBED("m/s3", Dimension.LINEAR_JERK, 1e9),
    MILLIMETRE_PER_SECOND_CUBED("mm/s3", Dimension.LINEAR_JERK, 1e6),
    COUNT_PER_SECOND_CUBED("count/s3", Dimension.COUNT_JERK, 1),

    MINUTE("min", Dimension.TIME, 60e6),
    SECOND("s", Dimension.TIME, 1e6),
    MILLISECOND("ms", Dimension.TIME, 1e3),
    MICROSECOND("us", Dimension.TIME, 1),

    NEWTON_METRE("Nm", Dimension.TORQUE, 1e3),
    MILLINEWTON_METRE("mNm", Dimension.TORQUE, 1),

    /** Of the rated value for torque signals, of the nominal value in a tolerance. */
    PERCENT("%", Dimension.RATIO, 10),
    PER_MILLE("permille", Dimension.RATIO, 1),

    /** Only differences and plain readings of one scale are used, so no offset is needed. */
    DEGREE_CELSIUS("degC", Dimension.TEMPERATURE, 1),

    KILOGRAM_SQUARE_METRE("kgm2", Dimension.INERTIA, 1e4),
    KILOGRAM_SQUARE_CENTIMETRE("kgcm2", Dimension.INERTIA, 1),

    KILOGRAM("kg", Dimension.MASS, 1),
    NEWTON("N", Dimension.FORCE, 1),
    NEWTON_PER_METRE("N/m", Dimension.LINEAR_STIFFNESS, 1),
    NEWTON_PER_MILLIMETRE("N/mm", Dimension.LINEAR_STIFFNESS, 1e3),
    NEWTON_SECOND_PER_METRE("Ns/m", Dimension.LINEAR_DAMPING, 1),
    NEWTON_SECOND_PER_MILLIMETRE("Ns/mm", Dimension.LINEAR_DAMPING, 1e3),
    NEWTON_METRE_SECOND_PER_RADIAN("Nms/rad", Dimension.ROTARY_DAMPING, 1),
    NEWTON_METRE_PER_RADIAN("Nm/rad", Dimension.ROTARY_STIFFNESS, 1),

    /** Cycles; the gain of a position loop is a plain rate and never told in hertz. */
    HERTZ("Hz", Dimension.FREQUENCY, 1),
    PER_SECOND("1/s", Dimension.RATE, 1),

    VOLT("V", Dimension.VOLTAGE, 1),
    AMPERE("A", Dimension.CURRENT, 1),

    ONE("1", Dimension.NUMBER, 1);

    private final String symbol;
    private final Dimension dimension;
    private final double size;

    Unit(String symbol, Dimension dimension, double size) {
        this.symbol = symbol;
        this.dimension = dimension;
        this.size = size;
    }

    /** The spelling in files and scripts, plain ASCII. */
    public String symbol() {
        return symbol;
    }

    /** The spelling in print: {@code µm}, {@code °}, {@code r/min} and the like. */
    public String printed() {
        return switch (this) {
            case DEGREE -> "°";
            case ARC_MINUTE -> "′";
            case ARC_SECOND -> "″";
            case MICROMETRE -> "µm";
            case MICROSECOND -> "µs";
            case DEGREE_PER_SECOND -> "°/s";
            case DEGREE_PER_SECOND_SQUARED -> "°/s²";
            case REVOLUTION_PER_SECOND_SQUARED -> "rev/s²";
            case RADIAN_PER_SECOND_SQUARED -> "rad/s²";
            case METRE_PER_SECOND_SQUARED -> "m/s²";
            case MILLIMETRE_PER_SECOND_SQUARED -> "mm/s²";
            case COUNT_PER_SECOND_SQUARED -> "count/s²";
            case REVOLUTION_PER_SECOND_CUBED -> "rev/s³";
            case REVOLUTION_PER_MINUTE_PER_SECOND_SQUARED -> "r/min/s²";
            case METRE_PER_SECOND_CUBED -> "m/s³";
            case MILLIMETRE_PER_SECOND_CUBED -> "mm/s³";
            case COUNT_PER_SECOND_CUBED -> "count/s³";
            case REVOLUTION_PER_MINUTE -> "r/min";
            case REVOLUTION_PER_MINUTE_PER_SECOND -> "r/min/s";
            case NEWTON_METRE -> "N·m";
            case MILLINEWTON_METRE -> "mN·m";
            case PER_MILLE -> "‰";
            case DEGREE_CELSIUS -> "°C";
            case KILOGRAM_SQUARE_METRE -> "kg·m²";
            case KILOGRAM_SQUARE_CENTIMETRE -> "kg·cm²";
            case NEWTON_SECOND_PER_METRE -> "N·s/m";
            case NEWTON_SECOND_PER_MILLIMETRE -> "N·s/mm";
            case NEWTON_METRE_SECOND_PER_RADIAN -> "N·m·s/rad";
            case NEWTON_METRE_PER_RADIAN -> "N·m/rad";
            case ONE -> "";
            default -> symbol;
        };
    }

    /** A number with this unit behind it, as it stands in print: {@code 5 r/min}, {@code 0.5°}; a plain number alone. */
    public String printed(String number) {
        return switch (this) {
            case DEGREE, ARC_MINUTE, ARC_SECOND -> number + printed();
            case ONE -> number;
            default -> number + " " + printed();
        };
    }

    public Dimension dimension() {
        return dimension;
    }

    /**
     * Converts a value of this unit into another unit of the same dimension.
     *
     * @throws IllegalArgumentException if the dimensions differ
     */
    public double convert(double value, Unit target) {
        if (this == target) {
            return value;
        }
        if (dimension != target.dimension) {
            throw new IllegalArgumentException("cannot convert " + symbol + " (" + dimension + ") into " + target.symbol
                    + " (" + target.dimension + ")");
        }
        return value * size / target.size;
    }

    /**
     * The unit of a rate: position unit per second, or speed unit per second.
     *
     * @throws IllegalArgumentException for a unit that no motion is told in
     */
    public Unit perSecond() {
        return switch (this) {
            case REVOLUTION -> REVOLUTION_PER_SECOND;
            case DEGREE -> DEGREE_PER_SECOND;
            case RADIAN -> RADIAN_PER_SECOND;
            case METRE -> METRE_PER_SECOND;
            case MILLIMETRE -> MILLIMETRE_PER_SECOND;
            case COUNT -> COUNT_PER_SECOND;
            case REVOLUTION_PER_SECOND -> REVOLUTION_PER_SECOND_SQUARED;
            case REVOLUTION_PER_MINUTE -> REVOLUTION_PER_MINUTE_PER_SECOND;
            case DEGREE_PER_SECOND -> DEGREE_PER_SECOND_SQUARED;
            case RADIAN_PER_SECOND -> RADIAN_PER_SECOND_SQUARED;
            case METRE_PER_SECOND -> METRE_PER_SECOND_SQUARED;
            case MILLIMETRE_PER_SECOND -> MILLIMETRE_PER_SECOND_SQUARED;
            case COUNT_PER_SECOND -> COUNT_PER_SECOND_SQUARED;
            default -> throw new IllegalArgumentException("no unit for " + symbol + " per second");
        };
    }

    /** The unit with the given spelling; {@code r/min} and {@code µm} are accepted beside {@code rpm} and {@code um}. */
    public static Optional<Unit> of(String spelling) {
        return Arrays.stream(values())
                .filter(unit -> unit.symbol.equals(spelling)
                        || (!unit.printed().isEmpty() && unit.printed().equals(spelling)))
                .findFirst();
    }

    /** All spellings, for messages that say what would have been understood. */
    public static String known() {
        return Arrays.stream(values()).map(Unit::symbol).collect(Collectors.joining(", "));
    }
}
