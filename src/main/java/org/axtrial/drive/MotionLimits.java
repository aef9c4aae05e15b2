package org.axtrial.drive;

import java.util.OptionalDouble;

/**
 * What a drive is told before a motion, in the units of its description.
 *
 * @param speed positive, unit of {@code profileSpeed}
 * @param acceleration positive, unit of {@code profileAcceleration}, used for deceleration too
 * @param torque positive, percent of rated torque; empty leaves the drive's own limit
 */
public record MotionLimits(double speed, double acceleration, OptionalDouble torque) {

    public MotionLimits {
        if (!(speed > 0) || !(acceleration > 0) || Double.isInfinite(speed) || Double.isInfinite(acceleration)) {
            throw new IllegalArgumentException(
                    "speed and acceleration must be positive and finite, got " + speed + " and " + acceleration);
        }
    }
}
