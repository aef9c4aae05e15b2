package org.axtrial.axis;

import java.time.Duration;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/** The axis: ready, at work, stopped, and how it gets from one to the other. */
final class GuardedAxis implements Axis {

    private static final Duration STATE_CHANGE = Duration.ofSeconds(3);

    private final AxisSetup setup;
    private final Drive drive;
    private final TimeSource time;
    private final AxisSampler sampler;
    private final StopLatch latch = new StopLatch();
    private final StopOnTrouble trouble;
    private final Motions motions;

    private volatile boolean armed;
    private volatile String locked = "";

    GuardedAxis(AxisSetup setup, Drive drive, TimeSource time) {
        this.setup = setup;
        this.drive = drive;
        this.time = time;
        this.sampler = new AxisSampler(setup, drive);
        this.trouble = new StopOnTrouble(setup, sampler, new SafeStop(setup, drive, sampler, time), latch);
        this.motions = new Motions(setup, drive, time, sampler, latch, trouble);
    }

    @Override
    public AxisSetup setup() {
        return setup;
    }

    @Override
    public TimeSource time() {
        return time;
    }

    @Override
    public void arm() {
        armed = true;
    }

    @Override
    public void lock(String reason) {
        locked = reason;
    }

    @Override
    public void listen(AxisListener to) {
        trouble.listen(to);
    }

    @Override
    public void beginTrial() throws InterruptedException {
        latch.clear();
        trouble.working("making ready", () -> {
            drive.reconnect();
            return confirmStandstill();
        });
    }

    private AxisSample confirmStandstill() throws DriveException, InterruptedException {
        StandstillWatch watch = StandstillWatch.of(setup);
        Deadline deadline = Deadline.in(time, setup.stopTime());
        AxisSample sample = sampler.look();
        while (!watch.standsAt(sample)) {
            if (deadline.isPassed()) {
                throw new AxisNotReadyException(
                        setup.name()
                                + " is not at rest, so no trial can begin; bring it to rest at the drive and find what moves it");
            }
            time.sleepUntil(time.nanos() + setup.samplePeriod().toNanos());
            sample = sampler.look();
        }
        return sample;
    }

    @Override
    public void enable() throws InterruptedException {
        atWork("enabling", () -> {
            trouble.starting(() -> {
                drive.enable(STATE_CHANGE);
                return true;
            });
            return sampler.look();
        });
    }

    @Override
    public void disable() throws InterruptedException {
        trouble.working("disabling", () -> {
            drive.disable(STATE_CHANGE);
            return sampler.look();
        });
    }

    @Override
    public Motion moveBy(Quantity distance, MoveOptions options) throws InterruptedException {
        return atWork("a move by " + distance.printed(), () -> motions.moveBy(distance, options));
    }

    @Override
    public Motion moveTo(Quantity target, MoveOptions options) throws InterruptedException {
        return atWork("a move to " + target.printed(), () -> motions.moveTo(target, options));
    }

    @Override
    public Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options) throws InterruptedException {
        return atWork("holding " + speed.printed(), () -> motions.holdSpeed(speed, hold, options));
    }

    @Override
    public Motion dwell(Duration dwell) throws InterruptedException {
        return trouble.working("a dwell", () -> motions.dwell(dwell));
    }

    @Override
    public Quantity position() {
        return new Quantity(reading("reading the position", () -> sampler.look().position()), setup.unit());
    }

    @Override
    public double read(String signal) {
        return reading("reading " + signal, () -> drive.read(signal));
    }

    /** Reads outside of a motion; a failure stops the axis as well, because it is out of sight. */
    private double reading(String what, StopOnTrouble.Work<Double> work) {
        try {
            return trouble.working(what, work);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AxisStoppedException(setup.name() + " was stopped: the program was interrupted", e);
        }
    }

    private <T> T atWork(String what, StopOnTrouble.Work<T> work) throws InterruptedException {
        return trouble.working(what, () -> {
            if (!locked.isEmpty()) {
                throw new AxisNotReadyException(
                        setup.name() + " is locked, so " + what + " was refused and nothing was sent: " + locked);
            }
            if (!armed) {
                throw new AxisNotReadyException(
                        setup.name() + " is not armed in this run, so " + what + " was refused; nothing was sent");
            }
            return work.run();
        });
    }

    @Override
    public void latchStop(String reason) {
        latch.latchForGood(trouble.stopped(reason));
    }

    @Override
    public StopReport safeStop(String reason) {
        return trouble.stopFromOutside(reason);
    }

    @Override
    public StopReport endTrial() {
        StopReport report = trouble.stop("end of trial");
        if (!report.standstill() || setup.afterTrial() == AxisSetup.AfterTrial.HOLD) {
            return report;
        }
        try {
            drive.disable(STATE_CHANGE);
            return report;
        } catch (DriveException e) {
            return withTorqueOn(report, String.valueOf(e.getMessage()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return withTorqueOn(report, "the program was interrupted");
        }
    }

    private static StopReport withTorqueOn(StopReport report, String why) {
        return new StopReport(
                report.axis(),
                report.reason(),
                report.ordered(),
                report.standstill(),
                report.took(),
                report.detail() + "; the torque could not be taken away: " + why);
    }
}
