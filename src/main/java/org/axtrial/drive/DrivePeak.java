package org.axtrial.drive;

import org.axtrial.quantity.Unit;

/**
 * A peak as the latch of a drive shows it.
 *
 * @param of what it is the peak of
 * @param size without sign, in {@code unit}
 * @param unit unit of the latch in the drive description
 * @param quantum smallest step of the latch, in {@code unit}; 0 when unknown
 */
public record DrivePeak(Of of, double size, Unit unit, double quantum) {

    /** What a drive may latch the peak of. */
    public enum Of {
        FOLLOWING_ERROR,
        TORQUE
    }
}
