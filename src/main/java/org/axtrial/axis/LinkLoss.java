package org.axtrial.axis;

/**
 * A move during which the link was lost, as seen before and after.
 *
 * @param motion the move, whose trace has a gap
 * @param lostSeconds the last look before the loss, in seconds after the order
 * @param foundSeconds the first look afterwards
 * @param lastPosition where the axis was at the last look before, axis unit
 * @param lastSpeed its speed then, axis unit per second
 * @param restPosition where it came to rest, axis unit
 * @param stood whether it stood when it was seen again
 * @param enabled whether it was still under torque then
 * @param state what the drive said of itself then, for a person
 */
public record LinkLoss(
        Motion motion,
        double lostSeconds,
        double foundSeconds,
        double lastPosition,
        double lastSpeed,
        double restPosition,
        boolean stood,
        boolean enabled,
        String state) {}
