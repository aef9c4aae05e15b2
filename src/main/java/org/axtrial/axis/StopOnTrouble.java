package org.axtrial.axis;

import java.util.Optional;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveUnreachableException;
import org.axtrial.drive.OutcomeUnknownException;
import org.axtrial.drive.WrongDriveException;

/**
 * Does work with the drive so that whatever goes wrong is latched first, then the axis is stopped, and only then the
 * trouble is told. Also the one place from which an axis is stopped.
 */
final class StopOnTrouble {

    /** Something done with the drive. */
    @FunctionalInterface
    interface Work<T> {
        T run() throws DriveException, InterruptedException;
    }

    private final AxisSetup setup;
    private final AxisSampler sampler;
    private final SafeStop safeStop;
    private final StopLatch latch;
    /** Held while a motion is being started, so that a stop can be sure to come after it. */
    private final Object startGate = new Object();

    private volatile AxisListener listener = AxisListener.NONE;

    StopOnTrouble(AxisSetup setup, AxisSampler sampler, SafeStop safeStop, StopLatch latch) {
        this.setup = setup;
        this.sampler = sampler;
        this.safeStop = safeStop;
        this.latch = latch;
    }

    void listen(AxisListener to) {
        listener = to;
    }

    AxisListener listener() {
        return listener;
    }

    /** Gives torque or starts a motion, unless a stop is latched. */
    <T> T starting(Work<T> start) throws DriveException, InterruptedException {
        synchronized (startGate) {
            latch.check();
            return start.run();
        }
    }

    /** Stops at once, and again after a start that was under way, so that no start can come after the last stop. */
    StopReport stop(String reason) {
        safeStop.order();
        StopReport report;
        synchronized (startGate) {
            report = safeStop.carryOut(reason);
        }
        listener.stopped(report);
        return report;
    }

    /** Latches and stops on behalf of somebody outside the trial. */
    StopReport stopFromOutside(String reason) {
        latch.latch(stopped(reason));
        return stop(reason);
    }

    AxisStoppedException stopped(String reason) {
        return new AxisStoppedException(setup.name() + " was stopped: " + reason);
    }

    /**
     * Runs work unless a stop is latched.
     *
     * @param what for messages, for example {@code a move by 10 mm}
     */
    <T> T working(String what, Work<T> work) throws InterruptedException {
        latch.check();
        try {
            return work.run();
        } catch (EnvelopeRefusedException | AxisNotReadyException e) {
            latch.latch(e);
            throw e;
        } catch (AxisException e) {
            throw stoppedFor(e);
        } catch (OutcomeUnknownException e) {
            throw lookThenStop(what, e);
        } catch (WrongDriveException e) {
            throw stoppedFor(new WrongDriveAnsweredException(message(what, e), e));
        } catch (DriveUnreachableException e) {
            throw stoppedFor(new AxisUnreachableException(message(what, e), e));
        } catch (DriveException e) {
            throw stoppedFor(new DriveTrippedException(message(what, e), e));
        } catch (InterruptedException e) {
            stopFromOutside("the program was interrupted during " + what);
            throw e;
        } catch (RuntimeException e) {
            stopFromOutside("an unexpected error during " + what + ": " + e);
            throw e;
        }
    }

    private String message(String what, DriveException trouble) {
        return setup.name() + ", " + what + ": " + trouble.getMessage();
    }

    private AxisException stoppedFor(AxisException trouble) {
        latch.latch(trouble);
        stop(String.valueOf(trouble.getMessage()));
        return trouble;
    }

    private OutcomeUnprovenException lookThenStop(String what, OutcomeUnknownException trouble) {
        Optional<AxisSample> before = sampler.last();
        // Latched first, so that nothing else can start while the axis is looked at.
        latch.latch(new OutcomeUnprovenException(message(what, trouble), trouble));
        StopReport stop = stop("the outcome of " + what + " is unknown");
        return new OutcomeUnprovenException(
                setup.name() + ", " + what
                        + ": the command was sent once, its reply was lost, and it was not repeated ("
                        + trouble.getMessage() + "). " + seenSince(before) + " The axis was stopped and "
                        + stop.detail()
                        + ".",
                trouble);
    }

    private String seenSince(Optional<AxisSample> before) {
        Optional<AxisSample> now = sampler.last();
        if (before.isEmpty() || now.isEmpty() || now.equals(before)) {
            return "The axis could not be looked at since.";
        }
        if (Math.abs(before.get().speed()) * setup.samplePeriod().toNanos() * 1e-9 > SafeStop.windowInAxisUnit(setup)) {
            return "It was moving already, so its position does not tell whether it acted.";
        }
        double change = now.get().position() - before.get().position();
        return Math.abs(change) > SafeStop.windowInAxisUnit(setup)
                ? "It had acted: the position changed by " + EnvelopeGuard.text(change, setup.unit()) + "."
                : "Nothing shows that it acted: the position has not changed.";
    }
}
