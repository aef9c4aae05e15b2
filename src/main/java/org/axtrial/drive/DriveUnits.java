package org.axtrial.drive;

import java.util.Map;
import java.util.OptionalInt;
import org.axtrial.quantity.Unit;

/**
 * The units a drive speaks, taken from its description. Positions are register counts; angular speeds and
 * accelerations mean the motor shaft.
 *
 * @param positionBits width of the position register, 16, 32 or 64; it wraps there
 * @param signals unit of each sampled signal
 * @param quanta smallest step of each sampled signal, in its unit
 * @param speedCommand unit of the speed command
 * @param profileSpeed unit of the speed for the next move
 * @param profileAcceleration unit of the acceleration for the next move
 * @param hasTorqueLimit whether a torque limit can be set, in percent of rated torque
 * @param internalBits width of the internal position, which no homing changes; empty if the drive does not report it
 */
public record DriveUnits(
        int positionBits,
        Map<String, Unit> signals,
        Map<String, Double> quanta,
        Unit speedCommand,
        Unit profileSpeed,
        Unit profileAcceleration,
        boolean hasTorqueLimit,
        OptionalInt internalBits) {

    public DriveUnits {
        signals = Map.copyOf(signals);
        quanta = Map.copyOf(quanta);
    }
}
