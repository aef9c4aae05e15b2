package org.axtrial.drive;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.TimeSource;

/**
 * One drive: signals by name and commands in its own style, in the drive's units and without the sign of the axis.
 *
 * <p>A command is written once. When its outcome is unknown the exception goes up and nothing is repeated here.
 * {@link #stop} alone may be called again and again, because a second stop moves nothing.
 */
public interface Drive {

    /** Names of the texts of a device identification, as a drive description calls them. */
    List<String> IDENTIFICATION_OBJECTS = DriveDescription.IDENTIFICATION_OBJECTS;

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

    /**
     * One look at every sampled signal that the description declares, in as few block reads as it allows.
     *
     * <p>Where the description declares a keep-alive, this also writes it when it is due. There is no timer for it: it
     * comes from whoever watches the axis, so that a hung runner lets the drive stop.
     */
    Sample sample() throws DriveException;

    /**
     * Reads one declared signal or parameter, scaled.
     *
     * @throws IllegalArgumentException if the description does not declare it
     */
    double read(String name) throws DriveException;

    /**
     * Writes one declared writable parameter or plain signal, once, and reads it back. When the reply to the write is
     * lost, the register itself tells: the write is not repeated.
     *
     * @return the value read back, equal to the written one within half a step of the register
     * @throws IllegalArgumentException if it is not declared, not writable, commands motion, or cannot hold the value;
     *     nothing was sent
     * @throws OutcomeUnknownException if the reply was lost and the register does not show the value, or cannot be read
     * @throws CommandRefusedException if the drive refused it, or took it and shows another value
     */
    double write(String name, double value) throws DriveException;

    /**
     * What the register would hold if {@link #write} were given this value; sends nothing.
     *
     * @return within half a step of the value
     * @throws IllegalArgumentException if it cannot be written, as {@link #write} would throw it
     */
    double nearest(String name, double value);

    /**
     * Unit of one declared signal or parameter, as the description gives it.
     *
     * @throws IllegalArgumentException if the description does not declare it
     */
    Unit unit(String name);

    /**
     * Lets the drive keep its parameters over a power cycle: writes the declared save command once and waits for its end
     * where the drive tells it.
     *
     * @param name name of the save command, so that nobody saves by accident
     * @throws IllegalArgumentException if the description declares no save command of that name; nothing was sent
     * @throws OutcomeUnknownException if the reply was lost, or the drive did not tell the end in time
     */
    void save(String name) throws DriveException, InterruptedException;

    /**
     * Lets the drive forget the peaks that it has latched: the declared write, once and not repeated. Sends nothing to a
     * drive that latches none, or none that can be cleared.
     *
     * @throws OutcomeUnknownException if the reply was lost, so that nobody knows how old the peaks are
     */
    void clearPeaks() throws DriveException;

    /** Peaks latched since {@link #clearPeaks}, read in as few blocks as can be; empty for a drive that latches none. */
    List<DrivePeak> peaks() throws DriveException;

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

    /**
     * Starts a move by so many register counts and sends the start word a second time, to see that the drive takes it
     * once. The one place where a start goes out twice: the caller must have allowed for twice the distance.
     *
     * @return the first of the two exchanges
     * @throws OutcomeUnknownException if nobody knows whether it started
     * @throws IllegalArgumentException if the style has no hand-shake that tells one start from two, or the distance does
     *     not fit the register; nothing was sent
     */
    Started startRelativeTwice(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    /** Starts a move to a register position in counts; errors as in {@link #startRelative}. */
    Started startAbsolute(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    /** Starts endless motion at a signed speed in the unit of the speed command; errors as in {@link #startRelative}. */
    Started startSpeed(double speed, MotionLimits limits) throws DriveException, InterruptedException;

    /**
     * Starts the homing that the drive is set up for.
     *
     * @throws OutcomeUnknownException if nobody knows whether it started
     * @throws IllegalArgumentException if the style knows no homing or the description declares no homing method; nothing
     *     was sent
     */
    Started startHoming() throws DriveException, InterruptedException;

    /** How far the homing has come that was started last; a state of another mode tells nothing. */
    Homing homing(DriveState state);

    /** The highest of the declared homing speeds, as it stands in the drive; empty if none is declared. */
    Optional<Quantity> homingSpeed() throws DriveException;

    /** Orders the drive to stop by its ramp and stay enabled. Does not wait. */
    void stop() throws DriveException;

    /** Ends the connection on purpose; nothing is sent any more until {@link #reconnect}. */
    void drop();

    /** Names of the parameters and identity constants that the description declares, in its order. */
    List<String> parameterNames();

    /**
     * What the drive says of itself by function 43 with MEI type 14, by the names of {@link
     * #IDENTIFICATION_OBJECTS}; empty if it tells nothing, which is no fault. It does not prove who answers:
     * the identity constants do.
     */
    Map<String, String> identification() throws DriveException;

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
