package org.axtrial.axis;

import java.time.Duration;
import java.util.Optional;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * What the site file says of one axis.
 *
 * @param name short name, unique in the site file
 * @param scale counts to load
 * @param unit position unit of traces and messages: rev, deg, mm, m or count
 * @param zero where positions of scripts and of the travel window are counted from
 * @param envelope limits that the runner enforces
 * @param speed speed of a move that names none
 * @param acceleration acceleration of a move that names none
 * @param samplePeriod ordered time between samples, 1 ms … 1 s
 * @param standstillWindow the axis stands when its position stays within ± this …
 * @param standstillTime … for so long
 * @param stopTime standstill must be confirmed within this after a stop was ordered
 * @param afterTrial what happens to the torque after a trial
 * @param firstMotion what it is held to until its sense and scale are proven; empty if it is not
 */
public record AxisSetup(
        String name,
        AxisScale scale,
        Unit unit,
        PositionZero zero,
        Envelope envelope,
        Quantity speed,
        Quantity acceleration,
        Duration samplePeriod,
        Quantity standstillWindow,
        Duration standstillTime,
        Duration stopTime,
        AfterTrial afterTrial,
        Optional<FirstMotion> firstMotion) {

    /** The same axis held inside another travel window, in axis units. */
    AxisSetup within(double lowest, double highest) {
        return within(lowest, highest, envelope.speed());
    }

    /** The same axis held inside another travel window, in axis units, and to another speed. */
    AxisSetup within(double lowest, double highest, Quantity most) {
        return with(
                name,
                new Envelope(
                        new Quantity(lowest, unit),
                        new Quantity(highest, unit),
                        most,
                        envelope.acceleration(),
                        envelope.torque(),
                        envelope.time()),
                firstMotion);
    }

    /** The same axis under another name. */
    public AxisSetup named(String other) {
        return with(other, envelope, firstMotion);
    }

    /** The same axis, held to that until its sense and scale are proven. */
    public AxisSetup heldTo(FirstMotion limits) {
        return with(name, envelope, Optional.of(limits));
    }

    private AxisSetup with(String called, Envelope inside, Optional<FirstMotion> first) {
        return new AxisSetup(
                called,
                scale,
                unit,
                zero,
                inside,
                speed,
                acceleration,
                samplePeriod,
                standstillWindow,
                standstillTime,
                stopTime,
                afterTrial,
                first);
    }

    /** Where positions are counted from. */
    public enum PositionZero {
        /** Where the axis stood when its first trial of the run began. */
        RUN_START,
        /** The zero of the drive's position register, for a referenced axis. */
        DRIVE
    }

    /** What happens once the axis stands after a trial. */
    public enum AfterTrial {
        DISABLE,
        /** Keep the torque: for a load that the motor has to carry. */
        HOLD
    }
}
