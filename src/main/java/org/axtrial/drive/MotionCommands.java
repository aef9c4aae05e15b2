package org.axtrial.drive;

import java.time.Duration;

/** One way in which a drive takes commands; the contracts are those of {@link Drive}. */
sealed interface MotionCommands permits Cia402Commands, DirectCommands {

    /** What a status word and a fault code say. */
    DriveState state(long status, int faultCode);

    /** Name of the signal that takes a speed command. */
    String speedSignal();

    void enable(Duration within) throws DriveException, InterruptedException;

    void disable(Duration within) throws DriveException, InterruptedException;

    void resetFault(Duration within) throws DriveException, InterruptedException;

    Started startRelative(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    Started startRelativeTwice(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    Started startAbsolute(long counts, MotionLimits limits) throws DriveException, InterruptedException;

    Started startSpeed(double speed, MotionLimits limits) throws DriveException, InterruptedException;

    Started startHoming() throws DriveException, InterruptedException;

    Homing homing(DriveState state);

    void stop() throws DriveException;
}
