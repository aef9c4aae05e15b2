package org.axtrial.axis;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.drive.CommandRefusedException;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/** The axis: ready, at work, stopped, and how it gets from one to the other. */
final class GuardedAxis implements Axis {

    private final AxisSetup setup;
    private final Drive drive;
    private final TimeSource time;
    private final Optional<Simulation> simulation;
    private final AxisSampler sampler;
    private final StopLatch latch = new StopLatch();
    private final StopOnTrouble trouble;
    private final FirstMotionLock first;
    private final Motions motions;
    private final ProvokedMotions provoked;
    private final TestValues testValues;

    private volatile boolean armed;
    private volatile String locked = "";

    GuardedAxis(AxisSetup setup, Drive drive, TimeSource time, Optional<Simulation> simulation) {
        this.setup = setup;
        this.drive = drive;
        this.time = time;
        this.simulation = simulation;
        this.sampler = new AxisSampler(setup, drive);
        this.trouble = new StopOnTrouble(setup, sampler, new SafeStop(setup, drive, sampler, time), latch);
        this.first = new FirstMotionLock(setup);
        this.motions = new Motions(setup, drive, time, sampler, latch, trouble, first);
        this.provoked = new ProvokedMotions(setup, drive, time, sampler, latch, motions);
        this.testValues = new TestValues(setup.name(), drive, trouble::listener);
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
    public void firstMotionUnlockedBy(String sentence) {
        first.unlockedBy(sentence);
    }

    @Override
    public boolean senseAndScale(boolean proven) {
        boolean before = first.held();
        first.proven(proven);
        return before != first.held();
    }

    @Override
    public void listen(AxisListener to) {
        trouble.listen(to);
    }

    @Override
    public void beginTrial() throws InterruptedException {
        latch.clear();
        motions.startAnew();
        if (!locked.isEmpty()) {
            // Nothing is sent, because the drive may be another one.
            AxisNotReadyException refused =
                    new AxisNotReadyException(setup.name() + " is locked in this run, and nothing was sent: " + locked);
            latch.latch(refused);
            throw refused;
        }
        trouble.working("making ready", () -> {
            drive.reconnect();
            AxisSample sample = confirmStandstill();
            requireAsFound();
            return sample;
        });
    }

    /** An earlier trial may have lost the drive before its parameters could be put back. */
    private void requireAsFound() {
        testValues.putBack();
        List<ParameterChange> left = leftChanged();
        if (!left.isEmpty()) {
            throw new AxisNotReadyException(
                    setup.name() + " still holds a value of an earlier trial, so no trial begins: "
                            + left.stream()
                                    .map(change -> change.name() + " is " + change.printedWritten() + " and was "
                                            + change.printedFound())
                                    .collect(Collectors.joining(", "))
                            + "; put it back at the drive");
        }
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
                drive.enable(Motions.STATE_CHANGE);
                return true;
            });
            motions.startAnew();
            AxisSample sample = sampler.look();
            motions.watch();
            return sample;
        });
    }

    @Override
    public void disable() throws InterruptedException {
        atWork("disabling", () -> {
            drive.disable(Motions.STATE_CHANGE);
            return sampler.look();
        });
    }

    @Override
    public void resetFault() throws InterruptedException {
        atWork("acknowledging the fault", () -> {
            drive.resetFault(Motions.STATE_CHANGE);
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
    public void checkMoveBy(Quantity distance, MoveOptions options) throws InterruptedException {
        atWork("a move by " + distance.printed(), () -> {
            motions.checkMoveBy(distance, options);
            return distance;
        });
    }

    @Override
    public void checkMoveTo(Quantity target, MoveOptions options) throws InterruptedException {
        atWork("a move to " + target.printed(), () -> {
            motions.checkMoveTo(target, options);
            return target;
        });
    }

    @Override
    public void join(Company company) {
        Company.Member member = why -> latch.latch(trouble.stopped(why));
        company.join(member);
        motions.join(company);
        latch.tell(reason -> company.troubled(member, reason));
    }

    @Override
    public void watch() throws InterruptedException {
        trouble.working("watching", () -> {
            motions.watch();
            return setup;
        });
    }

    @Override
    public Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options) throws InterruptedException {
        return atWork("holding " + speed.printed(), () -> motions.holdSpeed(speed, hold, options, Optional.empty()));
    }

    @Override
    public Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options, Operation operation)
            throws InterruptedException {
        return atWork(
                "holding " + speed.printed(), () -> motions.holdSpeed(speed, hold, options, Optional.of(operation)));
    }

    @Override
    public Motion home(Quantity reach, MoveOptions options) throws InterruptedException {
        return atWork("homing", () -> motions.home(reach, options));
    }

    @Override
    public Motion moveUntilStopped(Quantity distance, MoveOptions options, StopCause by) throws InterruptedException {
        return atWork(
                "a move by " + distance.printed() + " that " + by.text() + " is to end",
                () -> provoked.untilStopped(distance, options, by));
    }

    @Override
    public Motion moveStartedTwice(Quantity distance, MoveOptions options) throws InterruptedException {
        return atWork(
                "a move by " + distance.printed() + " that is started twice",
                () -> provoked.startedTwice(distance, options));
    }

    @Override
    public LinkLoss moveWithoutLink(Quantity distance, MoveOptions options, LinkCut cut) throws InterruptedException {
        Optional<Runnable> pull = simulation.map(machine -> () -> machine.strike(
                Map.of("kind", "cable pulled", "lasts", cut.lasts().toMillis() + " ms")));
        return atWork(
                "a move by " + distance.printed() + " without a link",
                () -> provoked.withoutLink(distance, options, cut, pull));
    }

    @Override
    public void awaitRestart(Duration within) throws InterruptedException {
        simulation.ifPresent(machine -> machine.strike(Map.of("kind", "power cycle", "lasts", "1 s")));
        trouble.working("waiting for the drive to be switched off and on", () -> provoked.restart(within));
    }

    @Override
    public LinkTimes linkTimes(int reads) throws InterruptedException {
        return trouble.working("looking at the link", () -> provoked.times(reads));
    }

    @Override
    public List<String> parameterNames() {
        return drive.parameterNames();
    }

    @Override
    public Map<String, String> identification() {
        return reading("reading the device identification", drive::identification);
    }

    @Override
    public Motion dwell(Duration dwell) throws InterruptedException {
        return trouble.working("a dwell", () -> motions.dwell(dwell, Optional.empty()));
    }

    @Override
    public Motion dwell(Duration dwell, Operation operation) throws InterruptedException {
        return trouble.working("a dwell", () -> motions.dwell(dwell, Optional.of(operation)));
    }

    @Override
    public Quantity position() {
        return new Quantity(reading("reading the position", () -> sampler.look().position()), setup.unit());
    }

    @Override
    public double read(String signal) {
        return reading("reading " + signal, () -> drive.read(signal));
    }

    @Override
    public Quantity parameter(String name) {
        return new Quantity(read(name), drive.unit(name));
    }

    @Override
    public ParameterChange setParameter(String name, Quantity value, boolean keep) throws InterruptedException {
        return atWork("setting " + name, () -> unlessRefused("set " + name, () -> testValues.set(name, value, keep)));
    }

    @Override
    public void saveParameters(String command) throws InterruptedException {
        atWork("saving the parameters", () -> {
            List<ParameterChange> standing = leftChanged();
            if (!standing.isEmpty()) {
                throw new AxisNotReadyException(setup.name() + ": " + command
                        + " would make a test value permanent, so nothing was sent: "
                        + standing.stream().map(ParameterChange::printed).collect(Collectors.joining(", "))
                        + "; set it with { keep: true } if it is meant to stay");
            }
            return unlessRefused("save the parameters", () -> {
                drive.save(command);
                return true;
            });
        });
    }

    /** A drive that refuses a parameter is not in the state for it; that says nothing about how the axis moves. */
    private <T> T unlessRefused(String what, StopOnTrouble.Work<T> work) throws DriveException, InterruptedException {
        try {
            return work.run();
        } catch (CommandRefusedException e) {
            throw new AxisNotReadyException(setup.name() + ": the drive refused to " + what + ": " + e.getMessage());
        }
    }

    @Override
    public boolean isSimulated() {
        return simulation.isPresent();
    }

    @Override
    public void strike(Map<String, Object> fault) {
        simulation
                .orElseThrow(() -> new IllegalArgumentException(
                        setup.name() + " is a real axis; only a simulated one can be given a fault"))
                .strike(fault);
    }

    @Override
    public List<ParameterChange> leftChanged() {
        return testValues.left();
    }

    /** Reads outside of a motion; a failure stops the axis as well, because it is out of sight. */
    private <T> T reading(String what, StopOnTrouble.Work<T> work) {
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
        if (!armed) {
            return leftAlone("end of trial");
        }
        StopReport report = trouble.stop("end of trial");
        if (!report.standstill()) {
            // An axis that may still move is not given other gains or limits; the next trial puts them back or is
            // refused.
            return report;
        }
        StopReport end = setup.afterTrial() == AxisSetup.AfterTrial.HOLD ? report : withoutTorque(report);
        testValues.putBack();
        return end;
    }

    /**
     * Only looks: this program has moved nothing on an axis that is not armed, and whoever holds its load by the drive must
     * not lose the torque.
     */
    private StopReport leftAlone(String reason) {
        long began = time.nanos();
        boolean stands = false;
        String seen;
        try {
            seen = "stands at " + EnvelopeGuard.position(confirmStandstill().position(), setup);
            stands = true;
        } catch (AxisNotReadyException | DriveException e) {
            seen = String.valueOf(e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            seen = "the program was interrupted";
        }
        StopReport report = new StopReport(
                setup.name(),
                reason,
                false,
                stands,
                Duration.ofNanos(time.nanos() - began),
                "not armed, so nothing was sent; " + seen);
        trouble.listener().stopped(report);
        return report;
    }

    private StopReport withoutTorque(StopReport report) {
        try {
            drive.disable(Motions.STATE_CHANGE);
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
