package org.axtrial.axis;

import java.time.Duration;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.WrongDriveException;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/**
 * Brings an axis to rest and makes sure of it: orders the stop, then looks at the position until it stays put. While
 * standstill is not seen, the stop is ordered again and a lost link is made anew, until the time is over. It never takes
 * the torque away, because a load that hangs on the motor would drop.
 */
final class SafeStop {

    private final AxisSetup setup;
    private final Drive drive;
    private final AxisSampler sampler;
    private final TimeSource time;

    SafeStop(AxisSetup setup, Drive drive, AxisSampler sampler, TimeSource time) {
        this.setup = setup;
        this.drive = drive;
        this.sampler = sampler;
        this.time = time;
    }

    /** Sends one stop, if the link lets it; tells whether the drive took it. */
    boolean order() {
        try {
            drive.stop();
            return true;
        } catch (DriveException e) {
            return false;
        }
    }

    /** Carries the stop out. Never throws; an interrupt is kept for the caller and does not shorten the stop. */
    synchronized StopReport carryOut(String reason) {
        boolean interrupted = Thread.interrupted();
        Attempt attempt = new Attempt(reason);
        try {
            return attempt.run();
        } finally {
            if (interrupted || attempt.interruptedMeanwhile) {
                Thread.currentThread().interrupt();
            }
        }
    }

    /** One stop, from the first order to the report. */
    private final class Attempt {

        private final String reason;
        private final long began = time.nanos();
        private final Deadline deadline = Deadline.in(time, setup.stopTime());
        private boolean ordered;
        private String trouble = "";
        private boolean wrongDrive;
        private boolean interruptedMeanwhile;

        Attempt(String reason) {
            this.reason = reason;
        }

        StopReport run() {
            StandstillWatch watch = StandstillWatch.of(setup);
            long orderAgainAt = began;
            do {
                if (time.nanos() >= orderAgainAt) {
                    orderAgainAt = time.nanos() + setup.standstillTime().toNanos() * 2;
                    orderNow();
                }
                if (wrongDrive) {
                    return report(
                            false,
                            "nothing was written, not even a stop, because " + trouble
                                    + ". Standstill is unknown: use the emergency stop, then look at the drive");
                }
                try {
                    AxisSample sample = sampler.look();
                    if (sampler.isDoubtful()) {
                        trouble = "the registers still show the same stale values";
                    } else if (watch.standsAt(sample) && (ordered || isWithoutTorque(sample))) {
                        return report(true, "stands at " + EnvelopeGuard.position(sample.position(), setup));
                    }
                } catch (DriveException e) {
                    trouble = String.valueOf(e.getMessage());
                    watch = StandstillWatch.of(setup);
                    // A new connection may reach another drive, whose position says nothing of this axis.
                    reconnect();
                }
            } while (pause());
            return report(
                    false,
                    "standstill was not seen within " + setup.stopTime().toMillis() + " ms"
                            + (trouble.isEmpty() ? "" : " (" + trouble + ")")
                            + "; treat the axis as moving: use the emergency stop, then look at the drive");
        }

        /** Orders the stop; when the link was lost, once more over a new one, because every moment counts. */
        private void orderNow() {
            if (!tryOrder() && !wrongDrive) {
                reconnect();
                if (!wrongDrive) {
                    tryOrder();
                }
            }
        }

        private boolean tryOrder() {
            try {
                drive.stop();
                ordered = true;
                return true;
            } catch (DriveException e) {
                troubled(e);
                return false;
            }
        }

        private void reconnect() {
            try {
                drive.reconnect();
            } catch (DriveException e) {
                troubled(e);
            }
        }

        private void troubled(DriveException e) {
            trouble = String.valueOf(e.getMessage());
            wrongDrive = e instanceof WrongDriveException;
        }

        /** Waits one sample period; false once the time is over. */
        private boolean pause() {
            if (deadline.isPassed()) {
                return false;
            }
            long until = time.nanos() + setup.samplePeriod().toNanos();
            while (time.nanos() < until) {
                try {
                    time.sleepUntil(until);
                } catch (InterruptedException e) {
                    // The stop goes on, because nothing is more urgent; the caller finds the wish in the flag.
                    interruptedMeanwhile = true;
                }
            }
            return true;
        }

        private StopReport report(boolean standstill, String detail) {
            return new StopReport(
                    setup.name(), reason, ordered, standstill, Duration.ofNanos(time.nanos() - began), detail);
        }
    }

    private static boolean isWithoutTorque(AxisSample sample) {
        DriveState.Phase phase = sample.state().phase();
        return phase == DriveState.Phase.DISABLED || phase == DriveState.Phase.FAULT;
    }

    /** Half-width of the standstill window. */
    static double windowInAxisUnit(AxisSetup setup) {
        Quantity window = setup.standstillWindow();
        Unit unit = setup.unit();
        return Math.abs(setup.scale().convert(window.value(), window.unit(), unit));
    }
}
