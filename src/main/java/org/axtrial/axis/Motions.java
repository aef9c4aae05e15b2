package org.axtrial.axis;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.DriveUnits;
import org.axtrial.drive.MotionLimits;
import org.axtrial.drive.Started;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.TimeSource;
import org.axtrial.trace.Trace;

/**
 * The motions an axis can make. Each is checked against the envelope before anything is sent, is supervised while it
 * lasts, and throws for the first thing that is wrong; stopping is for the caller.
 */
final class Motions {

    /** Longest time for a change of the drive's state. */
    static final Duration STATE_CHANGE = Duration.ofSeconds(3);

    private static final Duration SETTLE = Duration.ofMillis(200);
    /** Samples at rest before a command: as many as it takes to see how their noise hangs together. */
    private static final int REST_SAMPLES = 10;
    /** A drive that shows no sign of homing after so many seconds has not begun (common practice, no source). */
    private static final double HOMING_BEGINS = 0.5;

    private final AxisSetup setup;
    private final Drive drive;
    private final TimeSource time;
    private final AxisSampler sampler;
    private final StopLatch latch;
    private final StopOnTrouble trouble;
    private final EnvelopeGuard guard;
    private final FirstMotionLock first;
    private volatile Company company = Company.ALONE;
    /** Whether the drive has stopped by itself, as a person meant it to, and was not enabled since. */
    private boolean tripKnown;

    Motions(
            AxisSetup setup,
            Drive drive,
            TimeSource time,
            AxisSampler sampler,
            StopLatch latch,
            StopOnTrouble trouble,
            FirstMotionLock first) {
        this.setup = setup;
        this.drive = drive;
        this.time = time;
        this.sampler = sampler;
        this.latch = latch;
        this.trouble = trouble;
        this.guard = new EnvelopeGuard(setup);
        this.first = first;
    }

    /** The axes that move at once with this one from now on. */
    void join(Company others) {
        company = others;
    }

    Motion moveBy(Quantity distance, MoveOptions options) throws DriveException, InterruptedException {
        double by = inAxisUnit(distance);
        long counts = Math.round(setup.scale().toDrive(by, setup.unit(), Unit.COUNT));
        return move(byOrder(distance, options), start -> start + by, limits -> drive.startRelative(counts, limits));
    }

    Motion moveTo(Quantity target, MoveOptions options) throws DriveException, InterruptedException {
        double to = inAxisUnit(target);
        return move(
                toOrder(target, options),
                start -> to,
                limits -> drive.startAbsolute(sampler.registerCounts(to), limits));
    }

    void checkMoveBy(Quantity distance, MoveOptions options) throws DriveException {
        double by = inAxisUnit(distance);
        ramp(byOrder(distance, options), start -> start + by);
    }

    void checkMoveTo(Quantity target, MoveOptions options) throws DriveException {
        double to = inAxisUnit(target);
        ramp(toOrder(target, options), start -> to);
    }

    private static Order byOrder(Quantity distance, MoveOptions options) {
        return new Order(Motion.Kind.MOVE_BY, distance, "a move by " + distance.printed(), options);
    }

    private static Order toOrder(Quantity target, MoveOptions options) {
        return new Order(Motion.Kind.MOVE_TO, target, "a move to " + target.printed(), options);
    }

    /** The ramp of a move that is fit to be made from where the axis was last seen. */
    private Ramp ramp(Order order, DoubleUnaryOperator targetFrom) throws DriveException {
        Ramp ramp = ramp(order, order.options().speed().orElse(setup.speed()));
        double unused = checkMove(order, ramp, lastPosition(), targetFrom);
        requireEnabled(order);
        return ramp;
    }

    private Motion move(Order order, DoubleUnaryOperator targetFrom, Start start)
            throws DriveException, InterruptedException {
        Ramp ramp = ramp(order, targetFrom);
        Supervision motion = supervise();
        double from = motion.rest(REST_SAMPLES);
        double expected = checkMove(order, ramp, from, targetFrom);
        PeakLatch latched = PeakLatch.cleared(setup, drive);
        untilAllReady(motion);
        double target = targetFrom.applyAsDouble(from);
        TrapezoidTime path = new TrapezoidTime(Math.abs(target - from), Math.abs(ramp.speed()), ramp.acceleration());
        motion.started(launch(start, ramp), path::distanceAfter);
        double arrived = untilArrived(motion, order, from, target, expected);
        motion.arrived(target - from);
        motion.mayRest();
        stepUntil(motion, arrived + order.settle());
        untilAllDone(motion);
        return new Motion(
                order.kind(),
                setup.name(),
                setup.scale(),
                order.commanded(),
                latched.addTo(motion.trace()),
                from,
                OptionalDouble.of(expected),
                OptionalDouble.of(arrived),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    /** An axis that waits for others is looked at: it may drift, and its drive may miss the looks. */
    private void untilAllReady(Supervision motion) throws DriveException, InterruptedException {
        Company beside = company;
        beside.ready();
        while (!beside.allReady()) {
            motion.step();
        }
    }

    private void untilAllDone(Supervision motion) throws DriveException, InterruptedException {
        Company beside = company;
        beside.done();
        while (!beside.allDone()) {
            motion.step();
        }
    }

    /** Looks at an axis that does nothing until the others of its company are done. */
    void watch() throws DriveException, InterruptedException {
        Company beside = company;
        beside.ready();
        Supervision motion = supervise(guard);
        motion.startedNow();
        beside.done();
        while (!beside.allDone()) {
            motion.step();
        }
    }

    double checkMove(Order order, Ramp ramp, double from, DoubleUnaryOperator targetFrom) {
        double target = targetFrom.applyAsDouble(from);
        double seconds = TrapezoidTime.of(Math.abs(target - from), Math.abs(ramp.speed()), ramp.acceleration());
        guard.checkTravel(order.text(), from, target, seconds + order.settle());
        first.checkTravel(order.text(), from, target);
        return seconds;
    }

    /** Samples until the drive says that it has arrived, and returns when that was. */
    double untilArrived(Supervision motion, Order order, double from, double target, double expected)
            throws DriveException, InterruptedException {
        boolean leftTarget = false;
        while (true) {
            AxisSample sample = motion.step();
            Optional<String> astray = guard.wrongWay(from, target, sample.position());
            if (astray.isPresent()) {
                throw new EnvelopeTrippedException(astray.get());
            }
            double seconds = motion.seconds(sample);
            leftTarget |= !sample.state().targetReached();
            // The word of the last move may still stand in the first sample, so it counts only once it has been seen
            // to fall or the move can be over.
            if (sample.state().targetReached() && (leftTarget || seconds >= expected)) {
                return seconds;
            }
            requireInTime(order, seconds);
        }
    }

    Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options, Optional<Operation> operation)
            throws DriveException, InterruptedException {
        Order order = new Order(Motion.Kind.HOLD_SPEED, speed, "holding " + speed.printed(), options);
        Ramp ramp = ramp(order, speed);
        checkHold(order, ramp, hold, lastPosition());
        requireEnabled(order);
        Supervision motion = supervise();
        double from = motion.rest(REST_SAMPLES);
        double rampSeconds = checkHold(order, ramp, hold, from);
        double command = setup.scale()
                .toDrive(ramp.speed(), sampler.speedUnit(), drive.units().speedCommand());
        PeakLatch latched = PeakLatch.cleared(setup, drive);
        TrapezoidTime path = new TrapezoidTime(Double.MAX_VALUE, Math.abs(ramp.speed()), ramp.acceleration());
        motion.started(launch(limits -> drive.startSpeed(command, limits), ramp), path::distanceAfter);
        double steadyFrom = rampSeconds + order.settle();
        double steadyTo = steadyFrom + seconds(hold);
        if (operation.isPresent()) {
            Attended attended = attended(motion, operation.get(), ramp.speed(), steadyFrom, steadyTo);
            if (!attended.stop().isPresent() || stillEnabled()) {
                endHold(motion, order);
            }
            return hold(
                            order,
                            latched.addTo(motion.trace()),
                            from,
                            rampSeconds,
                            Math.min(steadyFrom, attended.end()),
                            attended.end())
                    .operated(attended.stop());
        }
        stepUntil(motion, steadyTo);
        endHold(motion, order);
        return hold(order, latched.addTo(motion.trace()), from, rampSeconds, steadyFrom, steadyTo);
    }

    private void endHold(Supervision motion, Order order) throws DriveException, InterruptedException {
        drive.stop();
        motion.mayRest();
        untilStanding(motion, order);
    }

    private Motion hold(Order order, Trace trace, double from, double rampSeconds, double steadyFrom, double steadyTo) {
        return new Motion(
                order.kind(),
                setup.name(),
                setup.scale(),
                order.commanded(),
                trace,
                from,
                OptionalDouble.of(steadyTo + rampSeconds),
                OptionalDouble.empty(),
                OptionalDouble.of(steadyFrom),
                OptionalDouble.of(steadyTo));
    }

    /**
     * How a time with a person at the machine ended.
     *
     * @param end when, seconds of the motion
     */
    private record Attended(double end, Optional<DriveStop> stop) {}

    /**
     * Samples until the machine has stopped the axis, the person can do nothing more, or the time is over.
     *
     * @param speed ordered speed, in axis units per second
     * @param begin when the axis does what it was ordered to
     */
    private Attended attended(Supervision motion, Operation operation, double speed, double begin, double end)
            throws DriveException, InterruptedException {
        AwaitedStop awaited = new AwaitedStop(setup, speed, lastPhase());
        motion.await(awaited);
        while (true) {
            double seconds = motion.seconds(motion.step());
            Optional<DriveStop> stop = awaited.over();
            if (stop.isPresent()) {
                takeBackTorque();
                return new Attended(stop.get().seconds(), stop);
            }
            if (!awaited.isUnderWay() && (seconds >= end || (seconds >= begin && !operation.goesOn(seconds - begin)))) {
                motion.awaitNoMore();
                return new Attended(Math.min(seconds, end), Optional.empty());
            }
        }
    }

    /** A drive that has no torque any more must not have it again because an order to enable still stands. */
    private void takeBackTorque() throws DriveException, InterruptedException {
        DriveState.Phase phase = lastPhase();
        if (phase == DriveState.Phase.DISABLED || phase == DriveState.Phase.FAULT) {
            drive.disable(STATE_CHANGE);
        }
        tripKnown |= phase != DriveState.Phase.ENABLED;
    }

    private boolean stillEnabled() {
        return lastPhase() == DriveState.Phase.ENABLED;
    }

    private DriveState.Phase lastPhase() {
        return sampler.last().map(sample -> sample.state().phase()).orElse(DriveState.Phase.UNKNOWN);
    }

    /** The drive starts anew: a fault is news again. */
    void startAnew() {
        tripKnown = false;
    }

    /**
     * Checks the whole distance of a speed hold, both ramps included, and its time, which ends when the axis has been seen to
     * stand; returns the seconds of one ramp.
     */
    private double checkHold(Order order, Ramp ramp, Duration hold, double from) {
        double rampSeconds = Math.abs(ramp.speed()) / ramp.acceleration();
        double seconds = 2 * rampSeconds + order.settle() + seconds(hold) + seconds(setup.standstillTime());
        double to = from + ramp.speed() * (rampSeconds + order.settle() + seconds(hold));
        String text = order.text() + " for " + EnvelopeGuard.text(seconds(hold), Unit.SECOND);
        guard.checkTravel(text, from, to, seconds);
        first.checkTravel(text, from, to);
        return rampSeconds;
    }

    void untilStanding(Supervision motion, Order order) throws DriveException, InterruptedException {
        StandstillWatch watch = StandstillWatch.of(setup);
        AxisSample sample = motion.step();
        while (!watch.standsAt(sample)) {
            requireInTime(order, motion.seconds(sample));
            sample = motion.step();
        }
    }

    /**
     * Lets the drive find its reference.
     *
     * @param reach how far the axis may go from where it stands, either way
     */
    Motion home(Quantity reach, MoveOptions options) throws DriveException, InterruptedException {
        Order order = new Order(Motion.Kind.HOME, reach, "homing within " + reach.printed(), options);
        double way = inAxisUnit(reach);
        first.refuseUnknownWay(order.text());
        guard.around(order.text(), lastPosition(), way);
        Optional<Quantity> homingSpeed = drive.homingSpeed();
        if (homingSpeed.isPresent()) {
            Quantity speed = homingSpeed.get();
            guard.checkSpeed(
                    order.text(), Math.abs(setup.scale().fromDrive(speed.value(), speed.unit(), sampler.speedUnit())));
        }
        requireEnabled(order);
        // A zero that was moved before belongs to no homing.
        sampler.look();
        sampler.expectNewZero(1.1 * inSpeedUnit(setup.envelope().speed()));
        try {
            Motion motion = home(order, way);
            sampler.takeNewZero();
            return motion;
        } finally {
            sampler.expectNoNewZero();
        }
    }

    private Motion home(Order order, double way) throws DriveException, InterruptedException {
        double from = lastPosition();
        Supervision motion = supervise(guard.around(order.text(), from, way));
        double start = motion.rest(REST_SAMPLES);
        motion.started(trouble.starting(drive::startHoming), seconds -> 0);
        double homed = untilHomed(motion, order);
        // Takes the start bit away and holds the axis where it is.
        drive.stop();
        motion.mayRest();
        untilStanding(motion, order);
        stepUntil(motion, homed + order.settle());
        return new Motion(
                order.kind(),
                setup.name(),
                setup.scale(),
                order.commanded(),
                motion.trace(),
                start,
                OptionalDouble.empty(),
                OptionalDouble.of(homed),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                sampler.newZeroBy());
    }

    private double untilHomed(Supervision motion, Order order) throws DriveException, InterruptedException {
        boolean begun = false;
        while (true) {
            AxisSample sample = motion.step();
            double seconds = motion.seconds(sample);
            switch (drive.homing(sample.state())) {
                case ERROR ->
                    throw new DriveTrippedException(setup.name() + ": the drive gave up " + order.text()
                            + String.format(
                                    " (status word 0x%04X)", sample.state().statusWord())
                            + "; look at the switches, their wiring and the homing method");
                case COMPLETED -> {
                    // The word of an earlier homing may still stand in the first samples.
                    if (begun || seconds > HOMING_BEGINS) {
                        return seconds;
                    }
                }
                case NOT_STARTED_OR_INTERRUPTED -> {
                    if (begun || seconds > HOMING_BEGINS) {
                        throw new DriveTrippedException(setup.name() + ": " + order.text()
                                + (begun ? " was interrupted at the drive" : " was not begun by the drive")
                                + "; is another program or a panel in command?");
                    }
                }
                case IN_PROGRESS, ATTAINED -> begun = true;
            }
            requireInTime(order, seconds);
        }
    }

    Motion dwell(Duration dwell, Optional<Operation> operation) throws DriveException, InterruptedException {
        double wanted = seconds(dwell);
        double from = lastPosition();
        guard.checkTravel("a dwell", from, from, wanted);
        // No motion is ordered, and a hand may turn the shaft: only the envelope holds.
        Supervision motion = supervise(guard);
        PeakLatch latched = PeakLatch.cleared(setup, drive);
        motion.startedNow();
        double start = motion.rest(1);
        Optional<Attended> attended =
                operation.isPresent() ? Optional.of(attended(motion, operation.get(), 0, 0, wanted)) : Optional.empty();
        stepUntil(motion, attended.map(Attended::end).orElse(wanted));
        Motion made = new Motion(
                Motion.Kind.DWELL,
                setup.name(),
                setup.scale(),
                new Quantity(wanted, Unit.SECOND),
                latched.addTo(motion.trace()),
                start,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty());
        return attended.map(Attended::stop).map(made::operated).orElse(made);
    }

    Ramp ramp(Order order, Quantity speed) {
        Unit speedUnit = sampler.speedUnit();
        double value = setup.scale().convert(speed.value(), speed.unit(), speedUnit);
        guard.checkSpeed(order.text(), value);
        first.checkSpeed(order.text(), value);
        Quantity wanted = order.options().acceleration().orElse(setup.acceleration());
        double acceleration = setup.scale().convert(wanted.value(), wanted.unit(), speedUnit.perSecond());
        guard.checkAcceleration(order.text(), acceleration);
        return new Ramp(value, acceleration);
    }

    Started launch(Start start, Ramp ramp) throws DriveException, InterruptedException {
        DriveUnits units = drive.units();
        Unit speedUnit = sampler.speedUnit();
        Optional<Quantity> torque = setup.envelope().torque().filter(limit -> units.hasTorqueLimit());
        MotionLimits limits = new MotionLimits(
                Math.abs(setup.scale().toDrive(ramp.speed(), speedUnit, units.profileSpeed())),
                Math.abs(
                        setup.scale().toDrive(ramp.acceleration(), speedUnit.perSecond(), units.profileAcceleration())),
                torque.isPresent() ? OptionalDouble.of(torque.get().in(Unit.PERCENT)) : OptionalDouble.empty());
        return trouble.starting(() -> start.with(limits));
    }

    Supervision supervise() throws DriveException {
        return supervise(first.guard(guard, lastPosition()));
    }

    private Supervision supervise(EnvelopeGuard by) {
        Supervision supervision = new Supervision(setup, sampler, by, latch, time, trouble::listener);
        if (tripKnown) {
            supervision.tripIsKnown();
        }
        return supervision;
    }

    private double inSpeedUnit(Quantity speed) {
        return setup.scale().convert(speed.value(), speed.unit(), sampler.speedUnit());
    }

    static void stepUntil(Supervision motion, double seconds) throws DriveException, InterruptedException {
        while (motion.seconds() < seconds) {
            motion.step();
        }
    }

    void requireInTime(Order order, double seconds) {
        double allowed = seconds(setup.envelope().time());
        if (seconds > allowed) {
            throw new EnvelopeTrippedException(setup.name() + ": " + order.text() + " was not over after "
                    + EnvelopeGuard.text(allowed, Unit.SECOND)
                    + ", the longest time that the envelope gives one motion");
        }
    }

    void requireEnabled(Order order) {
        DriveState.Phase phase = lastPhase();
        if (phase != DriveState.Phase.ENABLED) {
            throw new AxisNotReadyException(setup.name() + " is not enabled (it shows " + phase + "), so "
                    + order.text() + " was refused; nothing was sent. Call axis.enable() first");
        }
    }

    double lastPosition() throws DriveException {
        Optional<AxisSample> last = sampler.last();
        return last.isPresent() ? last.get().position() : sampler.look().position();
    }

    double inAxisUnit(Quantity position) {
        return setup.scale().convert(position.value(), position.unit(), setup.unit());
    }

    private static double seconds(Duration duration) {
        return duration.toNanos() * 1e-9;
    }

    /** The exchange that sets the axis in motion. */
    @FunctionalInterface
    interface Start {
        Started with(MotionLimits limits) throws DriveException, InterruptedException;
    }

    /** Signed speed and positive acceleration in axis units. */
    record Ramp(double speed, double acceleration) {}

    /** What was ordered, and how a message names it. */
    record Order(Motion.Kind kind, Quantity commanded, String text, MoveOptions options) {

        /** Seconds to go on sampling after arrival. */
        double settle() {
            return seconds(options.settle().orElse(SETTLE));
        }
    }
}
