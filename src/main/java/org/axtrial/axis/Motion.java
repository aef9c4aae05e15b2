package org.axtrial.axis;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.trace.Trace;

/**
 * A motion that was made, with all samples. Its trace has the channels of {@link AxisChannels}; time zero is the
 * moment the command was sent, and samples before it show the axis at rest.
 *
 * @param kind what was ordered
 * @param axis name of the axis
 * @param scale scale of the axis
 * @param commanded distance, target or speed as ordered; a duration for a dwell; the way allowed for homing
 * @param trace the samples
 * @param startPosition position before the command, mean of the samples at rest, axis unit
 * @param expectedDuration seconds that the ordered trapezoid takes from its start to its end; empty for a dwell
 * @param arrivedSeconds when the drive first said that it had arrived; empty if it has no such word or did not
 * @param steadyFrom for a speed hold: when the ramp was over, seconds; empty otherwise
 * @param steadyTo for a speed hold: when the stop was ordered, seconds; empty otherwise
 * @param newZeroBy for a homing: reading of the position register after it was set anew minus the reading that it would
 *     have had otherwise, axis unit; empty if the drive does not report an internal position, and for other motions
 * @param operated whether a person was to operate a device of the machine while it lasted
 * @param driveStop the stop that the machine made of it; empty if there was none
 */
public record Motion(
        Kind kind,
        String axis,
        AxisScale scale,
        Quantity commanded,
        Trace trace,
        double startPosition,
        OptionalDouble expectedDuration,
        OptionalDouble arrivedSeconds,
        OptionalDouble steadyFrom,
        OptionalDouble steadyTo,
        OptionalDouble newZeroBy,
        boolean operated,
        Optional<DriveStop> driveStop) {

    /** A motion during which nobody acts on the machine. */
    public Motion(
            Kind kind,
            String axis,
            AxisScale scale,
            Quantity commanded,
            Trace trace,
            double startPosition,
            OptionalDouble expectedDuration,
            OptionalDouble arrivedSeconds,
            OptionalDouble steadyFrom,
            OptionalDouble steadyTo,
            OptionalDouble newZeroBy) {
        this(
                kind,
                axis,
                scale,
                commanded,
                trace,
                startPosition,
                expectedDuration,
                arrivedSeconds,
                steadyFrom,
                steadyTo,
                newZeroBy,
                false,
                Optional.empty());
    }

    /** A motion that changes no zero. */
    public Motion(
            Kind kind,
            String axis,
            AxisScale scale,
            Quantity commanded,
            Trace trace,
            double startPosition,
            OptionalDouble expectedDuration,
            OptionalDouble arrivedSeconds,
            OptionalDouble steadyFrom,
            OptionalDouble steadyTo) {
        this(
                kind,
                axis,
                scale,
                commanded,
                trace,
                startPosition,
                expectedDuration,
                arrivedSeconds,
                steadyFrom,
                steadyTo,
                OptionalDouble.empty());
    }

    /** The same motion during which a person was to act, and what the machine made of it. */
    Motion operated(Optional<DriveStop> stop) {
        return new Motion(
                kind,
                axis,
                scale,
                commanded,
                trace,
                startPosition,
                expectedDuration,
                arrivedSeconds,
                steadyFrom,
                steadyTo,
                newZeroBy,
                true,
                stop);
    }

    /** Kinds of motion that a script can order. */
    public enum Kind {
        MOVE_BY,
        MOVE_TO,
        HOLD_SPEED,
        DWELL,
        HOME,
        /** A move that something is expected to end before its target. */
        MOVE_UNTIL_STOPPED
    }
}
