package org.axtrial.drive;

import java.time.Duration;
import org.axtrial.link.RegisterLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.TimeSource;

/**
 * One drive: signals by name and commands in its own style, in the drive's units and without the sign of the axis.
 *
 * <p>A command is written once. When its outcome is unknown the exception goes up and nothing is repeated here.
 * {@link #stop} alone may be called again and again, because a second stop moves nothing.
 */
public interface Drive {

    /**
     * The drive behind a link, commanded in the style of its description. Sends nothing.
     *
     * @throws IllegalArgumentException if the description lacks what its style needs; all of it is named
     */
    static Drive over(RegisterLink link, DriveDescription description, TimeSource time) {
        return new RegisterDrive(link, description, time);
    }

    /** Units and widths of the signals, from the description. */
    DriveUnits units();

    /** One look at every sampled signal that the description declares, in as few block reads as it allows. */
    Sample sample() throws DriveException;

    /**
     * Reads one declared signal or parameter, scaled.
     *
     * @throws IllegalArgumentException if the description does not declare it
     */
    double read(String name) throws DriveException;

    /**
     * Brings the drive to {@code ENABLED} from wherever it may be enabled from; a fault is not reset.
     *
     * @throws DriveStateException if it does not get there in time or shows a fault
     */
    void enable(Duration within) throws DriveException, InterruptedException;

    /** Takes the torque away. Call at standstill. */
    void disable(Duration within) throws DriveException, InterruptedException;

    /** Acknowledges a fault and waits until it is gone. */
    void resetFault(Duration within) throws DriveException, InterruptedException;

    /**
     * Starts a move by so many register counts.
     *
     * @return the exchange that started the motion
     * @throws OutcomeUnknownException if nobody knows whether it started
     * @throws IllegalArgumentException if the distance does not fit the register; nothing was sent
     */
    Started startRelative(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    /** Starts a move to a register position in counts; errors as in {@link #startRelative}. */
    Started startAbsolute(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    /** Starts endless motion at a signed speed in the unit of the speed command; errors as in {@link #startRelative}. */
    Started startSpeed(double speed, MotionLimits limits) throws DriveException, InterruptedException;

    /** Orders the drive to stop by its ramp and stay enabled. Does not wait. */
    void stop() throws DriveException;

    /**
     * Drops a failed connection and makes a new one; writes nothing. Over a new connection the identity constants and the
     * serial number of the drive are read before anything else.
     *
     * @throws WrongDriveException if another drive answers; from then on every command throws it too, until a connection
     *     reaches the right drive again
     */
    void reconnect() throws DriveException;

    /** Host, port and unit, for messages. */
    String peer();
}
