package org.axtrial.axis;

/** Duration of the motion that an axis is told to make. */
final class TrapezoidTime {

    private TrapezoidTime() {}

    /**
     * Seconds that a move takes with equal acceleration and deceleration: S/v + v/a when the speed is reached, else
     * 2·√(S/a). Source: kinematics of the trapezoid and triangle profile, any motion handbook.
     *
     * @param distance not negative
     * @param speed positive
     * @param acceleration positive, consistent units
     */
    static double of(double distance, double speed, double acceleration) {
        return distance >= speed * speed / acceleration
                ? distance / speed + speed / acceleration
                : 2 * Math.sqrt(distance / acceleration);
    }
}
