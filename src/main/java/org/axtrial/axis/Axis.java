package org.axtrial.axis;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.drive.Drive;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.TimeSource;

/**
 * One axis in engineering units, held inside its envelope.
 *
 * <p>Motion methods are called by one thread, the one that runs the trial; {@link #safeStop} and {@link #latchStop} may
 * be called by any thread at any time. Once a stop is latched every method that talks to the drive throws the same exception again: after
 * {@link #safeStop} and after anything that went wrong until {@link #beginTrial}, after {@link #latchStop} for good.
 */
public interface Axis {

    /** An axis on a drive. It refuses to move until {@link #arm}. */
    static Axis over(AxisSetup setup, Drive drive, TimeSource time) {
        return new GuardedAxis(setup, drive, time, Optional.empty());
    }

    /** An axis on a simulated drive. It refuses to move until {@link #arm}. */
    static Axis over(AxisSetup setup, Drive drive, TimeSource time, Simulation simulation) {
        return new GuardedAxis(setup, drive, time, Optional.of(simulation));
    }

    AxisSetup setup();

    /** The clock that this axis and its drive live on: real, or virtual in a rehearsal. */
    TimeSource time();

    /** Allows motion. For a real axis this follows the operator's arming in this run, for a simulated one its start. */
    void arm();

    /**
     * Forbids motion for the rest of the run, whatever {@link #arm} says before or after: no trial begins any more.
     *
     * @param reason why, as it stands in the report
     */
    void lock(String reason);

    /**
     * Says which trials prove sense and scale, for the message that refuses a motion which is too long or too fast before.
     *
     * @param sentence without a full stop
     */
    void firstMotionUnlockedBy(String sentence);

    /**
     * Takes the outcome of a trial that proves sense and scale. An axis that {@link AxisSetup#firstMotion} holds to short,
     * slow motions may move as its envelope says once this is proven; not proven, it is held again. The last such trial
     * counts.
     *
     * @return whether that changed what the axis may do
     */
    boolean senseAndScale(boolean proven);

    /** Where events of this axis go from now on. */
    void listen(AxisListener listener);

    /**
     * Readies the axis for a new trial: clears the latch of the last one.
     *
     * @throws AxisNotReadyException if an earlier stop was not confirmed, the axis is not armed, all is stopped, or a
     *     parameter that an earlier trial changed cannot be put back
     * @throws AxisUnreachableException if the drive does not answer
     */
    void beginTrial() throws InterruptedException;

    void enable() throws InterruptedException;

    void disable() throws InterruptedException;

    /**
     * Acknowledges a fault of the drive, which stays without torque. Nothing is sent if it shows none.
     *
     * @throws DriveTrippedException if the fault does not go
     */
    void resetFault() throws InterruptedException;

    /** Moves by a signed distance and waits until the axis has settled. */
    Motion moveBy(Quantity distance, MoveOptions options) throws InterruptedException;

    /** Moves to a position on the zero that {@link AxisSetup.PositionZero} names. */
    Motion moveTo(Quantity target, MoveOptions options) throws InterruptedException;

    /** Refuses what {@link #moveBy} would refuse before it sends anything. Sends nothing. */
    void checkMoveBy(Quantity distance, MoveOptions options) throws InterruptedException;

    /** Refuses what {@link #moveTo} would refuse before it sends anything. Sends nothing. */
    void checkMoveTo(Quantity target, MoveOptions options) throws InterruptedException;

    /**
     * Makes this axis one of several that move at once, by {@link JointMotion}. Until it is given another company, it starts
     * no move before all of them are ready, watches itself until all are done, and stops when any of them is stopped.
     */
    void join(Company company);

    /** Samples without ordering anything, until all axes of its company are done. */
    void watch() throws InterruptedException;

    /** Runs up to a signed speed, holds it for the given time, and stops. */
    Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options) throws InterruptedException;

    /**
     * Runs up to a speed and holds it while a person operates a device that may stop the axis. Such a stop is no trouble: the
     * motion is recorded until the axis stands, and {@link Motion#driveStop} tells of it. Envelope and link are watched as
     * ever. A drive that has left the enabled state must be enabled anew.
     *
     * @param hold the longest time at speed; then this program stops the axis
     * @throws EnvelopeTrippedException also if the stop takes longer than the stop time of the site file
     */
    Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options, Operation operation)
            throws InterruptedException;

    /**
     * Lets the drive find its reference by the homing that it is set up for, and waits until it stands. An axis that counts
     * from the zero of its drive counts from the new one afterwards.
     *
     * @param reach how far the axis may go from where it stands, either way; at most the width of the travel window
     * @param options only how long to go on sampling
     */
    Motion home(Quantity reach, MoveOptions options) throws InterruptedException;

    /**
     * Moves by a signed distance that something is expected to end before its target, and waits until the axis stands. The
     * envelope must hold the whole distance.
     *
     * @throws NotStoppedException if nothing ended it
     */
    Motion moveUntilStopped(Quantity distance, MoveOptions options, StopCause by) throws InterruptedException;

    /**
     * Moves by a signed distance with the start word sent twice, to see that the drive makes one motion of it. The envelope
     * must hold twice the distance.
     *
     * @throws IllegalArgumentException if the drive cannot tell one start from two; nothing was sent
     */
    Motion moveStartedTwice(Quantity distance, MoveOptions options) throws InterruptedException;

    /**
     * Moves by a signed distance, loses the link on the way, and looks what became of the axis. Nothing is sent again: an
     * axis that still moves when it is seen again is stopped. The envelope must hold the whole distance.
     */
    LinkLoss moveWithoutLink(Quantity distance, MoveOptions options, LinkCut cut) throws InterruptedException;

    /**
     * Waits until the drive has been switched off and on again: until the link is lost, and until it stands anew. Only looks.
     * On a simulated axis the supply is switched by the simulation.
     *
     * @param within longest time for each of the two
     * @throws NotStoppedException if the drive went on answering
     */
    void awaitRestart(Duration within) throws InterruptedException;

    /**
     * Looks at the drive so many times and tells how long each look took.
     *
     * @param reads at least 1
     */
    LinkTimes linkTimes(int reads) throws InterruptedException;

    /** Names of the parameters and identity constants that the drive description declares, in its order. */
    List<String> parameterNames();

    /** Names of the texts that a drive can tell of itself, as a drive description calls them. */
    List<String> IDENTIFICATION_OBJECTS = Drive.IDENTIFICATION_OBJECTS;

    /**
     * What the drive says of itself by the device identification of Modbus; empty if it tells nothing.
     *
     * @return texts by names of {@link #IDENTIFICATION_OBJECTS}
     */
    Map<String, String> identification();

    /** Samples without ordering anything. */
    Motion dwell(Duration time) throws InterruptedException;

    /** Samples while a person operates a device that may take the torque away; as the speed hold of the same kind. */
    Motion dwell(Duration time, Operation operation) throws InterruptedException;

    /** Position on the zero that {@link AxisSetup.PositionZero} names, in the axis unit. */
    Quantity position();

    /** One declared signal or parameter, scaled, in the drive's unit and without the sign of the axis. */
    double read(String signal);

    /**
     * One declared signal or parameter with its unit, as {@link #read} tells it.
     *
     * @throws IllegalArgumentException if the drive description does not declare it
     */
    Quantity parameter(String name);

    /**
     * Writes one declared writable parameter and reads it back. Unless it is to be kept, it is put back at the end of the
     * trial, however that ends.
     *
     * @param keep whether it stays after the trial
     * @return the change, told to the listener before it was made
     * @throws IllegalArgumentException if it is not declared or not writable, does not fit its register, or has a unit of
     *     another kind; nothing was written
     * @throws AxisNotReadyException if the axis is not armed, or the drive refuses the value
     */
    ParameterChange setParameter(String name, Quantity value, boolean keep) throws InterruptedException;

    /**
     * Lets the drive keep its parameters over a power cycle, by its declared save command, sent once.
     *
     * @param command name of the save command
     * @throws IllegalArgumentException if the description declares none of that name; nothing was sent
     * @throws AxisNotReadyException if the axis is not armed, the drive refuses, or a test value stands that the save
     *     would make permanent
     */
    void saveParameters(String command) throws InterruptedException;

    /** Whether it is a simulated machine that moves. */
    boolean isSimulated();

    /**
     * Lets something go wrong with the simulated machine, to see whether a trial finds it.
     *
     * @param fault as for {@link Simulation#strike}
     * @throws IllegalArgumentException if the axis is real, or the fault is none; nothing was sent
     */
    void strike(Map<String, Object> fault);

    /** Parameters that still hold the value of a trial, because they could not be put back. */
    List<ParameterChange> leftChanged();

    /**
     * Ends a trial whatever happened in it: stop, confirmed standstill, torque off as the site file says, changed
     * parameters put back. Never throws.
     */
    StopReport endTrial();

    /**
     * Latches a stop for the rest of the run without touching the wire: the next sample or call of the working thread
     * stops the axis and throws, and no trial can begin any more.
     */
    void latchStop(String reason);

    /**
     * Latches a stop and carries it out on the calling thread, beside the working thread if need be. Bounded in time,
     * never throws, may be called again.
     */
    StopReport safeStop(String reason);
}
