package org.axtrial.axis;

import java.util.OptionalDouble;
import org.axtrial.drive.DriveState;

/**
 * One look at an axis, in axis units and with the sign of the axis.
 *
 * @param position axis unit, unwrapped, on the zero of the axis
 * @param demand axis unit; empty if the drive does not report it
 * @param speed axis unit per second
 * @param torque percent of rated
 * @param followingError axis unit; empty if the drive does not report it
 * @param counts the position register as read
 * @param state what the drive says of itself
 * @param sentNanos when the look began
 * @param repliedNanos when it was complete
 */
record AxisSample(
        double position,
        OptionalDouble demand,
        double speed,
        double torque,
        OptionalDouble followingError,
        double counts,
        DriveState state,
        long sentNanos,
        long repliedNanos) {

    long midNanos() {
        return sentNanos + (repliedNanos - sentNanos) / 2;
    }
}
