package org.axtrial.axis;

/**
 * The motion that an axis is told to make, with equal acceleration and deceleration.
 *
 * @param distance not negative
 * @param speed positive
 * @param acceleration positive, consistent units
 */
record TrapezoidTime(double distance, double speed, double acceleration) {

    /**
     * Seconds that a move takes: S/v + v/a when the speed is reached, else 2·√(S/a). Source: kinematics of the trapezoid
     * and triangle profile, any motion handbook.
     */
    static double of(double distance, double speed, double acceleration) {
        return distance >= speed * speed / acceleration
                ? distance / speed + speed / acceleration
                : 2 * Math.sqrt(distance / acceleration);
    }

    /** Distance covered so many seconds after the start; source as for {@link #of}. */
    double distanceAfter(double seconds) {
        double total = of(distance, speed, acceleration);
        if (seconds >= total) {
            return distance;
        }
        double ramp = Math.min(speed / acceleration, total / 2);
        if (seconds <= ramp) {
            return acceleration * seconds * seconds / 2;
        }
        double left = total - seconds;
        return left < ramp ? distance - acceleration * left * left / 2 : acceleration * ramp * (seconds - ramp / 2);
    }
}
