package org.axtrial.quantity;

/**
 * Carries values between units, across dimensions where an axis gives the factor (counts into degrees or millimetres).
 */
@FunctionalInterface
public interface Conversion {

    /** Plain unit conversion, which refuses to leave the dimension. */
    Conversion SAME_DIMENSION = (value, from, to) -> from.convert(value, to);

    /**
     * Converts a difference or a rate. Positions are converted as distances from the zero of the axis.
     *
     * @throws IllegalArgumentException if there is no factor between the units; the message names both
     */
    double convert(double value, Unit from, Unit to);

    /** The quantity in another unit. */
    default Quantity convert(Quantity quantity, Unit to) {
        return new Quantity(convert(quantity.value(), quantity.unit(), to), to);
    }
}
