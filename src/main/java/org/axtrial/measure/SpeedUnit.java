package org.axtrial.measure;

import org.axtrial.quantity.Unit;

/**
 * The unit in which the speed of a position is told.
 *
 * @param length the unit that the position is converted into first
 * @param speed {@code length} per second
 */
record SpeedUnit(Unit length, Unit speed) {

    /** Revolution, degree, radian, metre, millimetre and count per second; smaller units by their next larger one. */
    static SpeedUnit of(Unit position) {
        return switch (position) {
            case REVOLUTION -> new SpeedUnit(position, Unit.REVOLUTION_PER_SECOND);
            case DEGREE, ARC_MINUTE, ARC_SECOND -> new SpeedUnit(Unit.DEGREE, Unit.DEGREE_PER_SECOND);
            case RADIAN -> new SpeedUnit(position, Unit.RADIAN_PER_SECOND);
            case METRE -> new SpeedUnit(position, Unit.METRE_PER_SECOND);
            case MILLIMETRE, MICROMETRE -> new SpeedUnit(Unit.MILLIMETRE, Unit.MILLIMETRE_PER_SECOND);
            case COUNT -> new SpeedUnit(position, Unit.COUNT_PER_SECOND);
            default -> throw new IllegalArgumentException("not a unit of position: " + position.symbol());
        };
    }
}
