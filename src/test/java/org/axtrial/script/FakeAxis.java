package org.axtrial.script;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CountDownLatch;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.AxisListener;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.AxisStoppedException;
import org.axtrial.axis.Company;
import org.axtrial.axis.Envelope;
import org.axtrial.axis.LinkCut;
import org.axtrial.axis.LinkLoss;
import org.axtrial.axis.LinkTimes;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.axis.Operation;
import org.axtrial.axis.ParameterChange;
import org.axtrial.axis.StopCause;
import org.axtrial.axis.StopReport;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.TimeSource;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;
import org.jspecify.annotations.Nullable;

/**
 * An axis without a drive, in virtual time: every move is a ramp of one second to exactly its target, sampled each
 * 10 ms. It writes down what it is told and can be told to fail or to wait.
 */
public final class FakeAxis implements Axis {

    private volatile AxisListener listener = AxisListener.NONE;
    private static final long PERIOD = 10_000_000L;

    private final AxisSetup setup;
    private final VirtualTime time = new VirtualTime(Instant.parse("2026-01-01T08:00:00Z"));
    private final List<String> log = Collections.synchronizedList(new ArrayList<>());
    private final Deque<AxisException> failures = new ArrayDeque<>();
    private final CountDownLatch stopLatch = new CountDownLatch(1);

    Map<String, String> identification = Map.of();
    private final Map<String, Quantity> parameters =
            new LinkedHashMap<>(Map.of("positionWindow", Quantity.of(10, Unit.COUNT)));
    private final List<ParameterChange> changed = new ArrayList<>();
    private boolean putsBack = true;

    private double position;
    private boolean followingError = true;
    private boolean standsStill = true;
    private boolean blocksInMotion;
    private @Nullable AxisException beginFailure;
    private volatile @Nullable String stopped;
    private Runnable inMotion = () -> {};

    private FakeAxis(String name, AxisScale scale, Unit unit, Unit speedUnit, Unit accelerationUnit) {
        setup = new AxisSetup(
                name,
                scale,
                unit,
                AxisSetup.PositionZero.RUN_START,
                new Envelope(
                        Quantity.of(-10, unit),
                        Quantity.of(10, unit),
                        Quantity.of(1000, speedUnit),
                        Quantity.of(100, accelerationUnit),
                        Optional.empty(),
                        Duration.ofSeconds(60)),
                Quantity.of(60, speedUnit),
                Quantity.of(10, accelerationUnit),
                Duration.ofNanos(PERIOD),
                Quantity.of(0.01, unit),
                Duration.ofMillis(100),
                Duration.ofSeconds(2),
                AxisSetup.AfterTrial.DISABLE,
                Optional.empty());
    }

    public static FakeAxis rotary(String name) {
        return new FakeAxis(
                name,
                AxisScale.rotary(65_536),
                Unit.REVOLUTION,
                Unit.REVOLUTION_PER_SECOND,
                Unit.REVOLUTION_PER_SECOND_SQUARED);
    }

    public static FakeAxis linear(String name) {
        return new FakeAxis(
                name,
                AxisScale.linear(65_536, Quantity.of(10, Unit.MILLIMETRE)),
                Unit.MILLIMETRE,
                Unit.MILLIMETRE_PER_SECOND,
                Unit.MILLIMETRE_PER_SECOND_SQUARED);
    }

    /** What the axis was told, in order. */
    public List<String> log() {
        return List.copyOf(log);
    }

    /** The next motion throws this instead of moving. */
    public void failNextMotion(AxisException failure) {
        failures.add(failure);
    }

    /** {@link #beginTrial} throws this. */
    public void failBegin(AxisException failure) {
        beginFailure = failure;
    }

    /** From now on nobody sees the axis stand still. */
    public void neverStandsStill() {
        standsStill = false;
    }

    /** The drive does not report the following error. */
    public void withoutFollowingError() {
        followingError = false;
    }

    /** Motions wait until the axis is stopped. */
    public void waitInMotionUntilStopped() {
        blocksInMotion = true;
    }

    /** Is run in the middle of every motion. */
    public void inMotion(Runnable action) {
        inMotion = action;
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
    public void listen(AxisListener to) {
        listener = to;
    }

    @Override
    public void lock(String reason) {}

    @Override
    public void arm() {
        log.add("arm");
    }

    @Override
    public void beginTrial() {
        log.add("beginTrial");
        if (beginFailure != null) {
            throw beginFailure;
        }
        stopped = null;
    }

    @Override
    public void enable() {
        requireFree();
        log.add("enable");
    }

    @Override
    public void disable() {
        requireFree();
        log.add("disable");
    }

    @Override
    public Motion moveBy(Quantity distance, MoveOptions options) throws InterruptedException {
        log.add("moveBy " + distance + " " + options.speed() + " " + options.acceleration() + " " + options.settle());
        double target = position + setup.scale().convert(distance, setup.unit()).value();
        return move(Motion.Kind.MOVE_BY, distance, target);
    }

    @Override
    public Motion moveTo(Quantity target, MoveOptions options) throws InterruptedException {
        log.add("moveTo " + target);
        return move(
                Motion.Kind.MOVE_TO,
                target,
                setup.scale().convert(target, setup.unit()).value());
    }

    @Override
    public void checkMoveBy(Quantity distance, MoveOptions options) {
        log.add("checkMoveBy " + distance);
    }

    @Override
    public void checkMoveTo(Quantity target, MoveOptions options) {
        log.add("checkMoveTo " + target);
    }

    @Override
    public void join(Company company) {
        // A fake moves in no time, so nobody waits for it.
    }

    @Override
    public void watch() {
        log.add("watch");
    }

    @Override
    public Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options) throws InterruptedException {
        log.add("holdSpeed " + speed + " " + hold + " " + options.acceleration());
        Unit perSecond = setup.unit() == Unit.MILLIMETRE ? Unit.MILLIMETRE_PER_SECOND : Unit.REVOLUTION_PER_SECOND;
        double axisSpeed = setup.scale().convert(speed, perSecond).value();
        double seconds = hold.toNanos() * 1e-9;
        double start = position;
        Trace trace = record(seconds, t -> start + axisSpeed * t, axisSpeed);
        return new Motion(
                Motion.Kind.HOLD_SPEED,
                setup.name(),
                setup.scale(),
                speed,
                trace,
                start,
                OptionalDouble.of(seconds),
                OptionalDouble.empty(),
                OptionalDouble.of(0.05),
                OptionalDouble.of(seconds));
    }

    @Override
    public void resetFault() {
        requireFree();
        log.add("resetFault");
    }

    @Override
    public Motion holdSpeed(Quantity speed, Duration hold, MoveOptions options, Operation operation)
            throws InterruptedException {
        throw new UnsupportedOperationException("operated motions are tried on a simulated drive");
    }

    @Override
    public Motion dwell(Duration duration, Operation operation) throws InterruptedException {
        Motion watched = dwell(duration);
        boolean goesOn = operation.goesOn(duration.toNanos() * 1e-9);
        log.add("person " + (goesOn ? "goes on" : "gives up"));
        return new Motion(
                watched.kind(),
                watched.axis(),
                watched.scale(),
                watched.commanded(),
                watched.trace(),
                watched.startPosition(),
                watched.expectedDuration(),
                watched.arrivedSeconds(),
                watched.steadyFrom(),
                watched.steadyTo(),
                watched.newZeroBy(),
                true,
                Optional.empty());
    }

    @Override
    public boolean isSimulated() {
        return true;
    }

    @Override
    public Motion home(Quantity reach, MoveOptions options) throws InterruptedException {
        log.add("home within " + reach);
        return move(Motion.Kind.HOME, reach, 0);
    }

    @Override
    public Motion moveUntilStopped(Quantity distance, MoveOptions options, StopCause by) throws InterruptedException {
        log.add("moveUntilStopped " + distance + " by " + by);
        double target = position + setup.scale().convert(distance, setup.unit()).value();
        return move(Motion.Kind.MOVE_UNTIL_STOPPED, distance, target);
    }

    @Override
    public Motion moveStartedTwice(Quantity distance, MoveOptions options) throws InterruptedException {
        log.add("moveStartedTwice " + distance);
        double target = position + setup.scale().convert(distance, setup.unit()).value();
        return move(Motion.Kind.MOVE_BY, distance, target);
    }

    @Override
    public LinkLoss moveWithoutLink(Quantity distance, MoveOptions options, LinkCut cut) throws InterruptedException {
        log.add("moveWithoutLink " + distance + " " + cut.how() + " " + cut.after() + " " + cut.lasts());
        double target = position + setup.scale().convert(distance, setup.unit()).value() / 2;
        Motion motion = move(Motion.Kind.MOVE_UNTIL_STOPPED, distance, target);
        double from = motion.startPosition();
        return new LinkLoss(
                motion,
                0.3,
                1.3,
                from,
                1,
                position,
                true,
                false,
                "FAULT, fault code 33072 (0x8130), status word 0x1208");
    }

    @Override
    public void awaitRestart(Duration within) {
        log.add("awaitRestart " + within);
    }

    @Override
    public LinkTimes linkTimes(int reads) {
        log.add("linkTimes " + reads);
        return new LinkTimes(Collections.nCopies(reads, 0.001), 0);
    }

    @Override
    public List<String> parameterNames() {
        return List.copyOf(parameters.keySet());
    }

    @Override
    public void firstMotionUnlockedBy(String sentence) {
        log.add("unlocked by " + sentence);
    }

    @Override
    public boolean senseAndScale(boolean proven) {
        log.add("sense and scale " + proven);
        return false;
    }

    @Override
    public Map<String, String> identification() {
        return identification;
    }

    @Override
    public Motion dwell(Duration duration) throws InterruptedException {
        log.add("dwell " + duration);
        double start = position;
        return new Motion(
                Motion.Kind.DWELL,
                setup.name(),
                setup.scale(),
                Quantity.of(duration.toNanos() * 1e-9, Unit.SECOND),
                record(duration.toNanos() * 1e-9, t -> start, 0),
                start,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    @Override
    public Quantity position() {
        requireFree();
        return Quantity.of(position, setup.unit());
    }

    @Override
    public Quantity parameter(String name) {
        requireFree();
        Quantity value = parameters.get(name);
        if (value == null) {
            throw new IllegalArgumentException("the drive declares no \"" + name + "\"");
        }
        return value;
    }

    @Override
    public ParameterChange setParameter(String name, Quantity value, boolean keep) {
        Quantity found = parameter(name);
        ParameterChange change =
                new ParameterChange(setup.name(), name, found.unit(), found.value(), value.value(), keep);
        listener.parameterChanging(change);
        log.add("setParameter " + change.printed() + (keep ? " keep" : ""));
        parameters.put(name, value);
        if (!keep) {
            changed.add(change);
        }
        return change;
    }

    @Override
    public void saveParameters(String command) {
        requireFree();
        log.add("saveParameters " + command);
    }

    @Override
    public void strike(Map<String, Object> fault) {
        requireFree();
        log.add("strike " + fault);
    }

    @Override
    public List<ParameterChange> leftChanged() {
        return List.copyOf(changed);
    }

    /** From now on no parameter can be put back. */
    public void losesParameters() {
        putsBack = false;
    }

    @Override
    public double read(String signal) {
        requireFree();
        if (!signal.equals("temperature")) {
            throw new IllegalArgumentException("the drive has no signal \"" + signal + "\"; it has temperature");
        }
        return 41.5;
    }

    @Override
    public StopReport endTrial() {
        log.add("endTrial");
        changed.forEach(change -> listener.parameterPutBack(
                change, putsBack ? Optional.empty() : Optional.of("the drive does not answer")));
        if (putsBack) {
            changed.forEach(change -> parameters.put(change.name(), Quantity.of(change.found(), change.unit())));
            changed.clear();
        }
        return told(report("end of trial"));
    }

    @Override
    public void latchStop(String reason) {
        stopped = reason;
        stopLatch.countDown();
    }

    @Override
    public StopReport safeStop(String reason) {
        log.add("safeStop " + reason);
        latchStop(reason);
        return told(report(reason));
    }

    private StopReport told(StopReport report) {
        listener.stopped(report);
        return report;
    }

    private StopReport report(String reason) {
        return new StopReport(
                setup.name(),
                reason,
                true,
                standsStill,
                Duration.ofMillis(120),
                standsStill ? "stands" : "still moves");
    }

    private void requireFree() {
        String reason = stopped;
        if (reason != null) {
            throw new AxisStoppedException("axis " + setup.name() + " was stopped: " + reason);
        }
    }

    private Motion move(Motion.Kind kind, Quantity commanded, double target) throws InterruptedException {
        double start = position;
        Trace trace = record(1.2, t -> t >= 1 ? target : start + (target - start) * t, target - start);
        return new Motion(
                kind,
                setup.name(),
                setup.scale(),
                commanded,
                trace,
                start,
                OptionalDouble.of(1),
                OptionalDouble.of(1),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    private interface Path {
        double at(double seconds);
    }

    private Trace record(double seconds, Path path, double speed) throws InterruptedException {
        requireFree();
        if (!failures.isEmpty()) {
            AxisException failure = failures.remove();
            stopped = failure.getMessage();
            throw failure;
        }
        inMotion.run();
        if (blocksInMotion) {
            stopLatch.await();
            requireFree();
        }
        List<Channel> channels = new ArrayList<>(List.of(
                new Channel(AxisChannels.POSITION, setup.unit(), 1e-5),
                new Channel(
                        AxisChannels.SPEED,
                        setup.unit() == Unit.MILLIMETRE ? Unit.MILLIMETRE_PER_SECOND : Unit.REVOLUTION_PER_SECOND,
                        1e-3),
                new Channel(AxisChannels.TORQUE, Unit.PERCENT, 0.1)));
        if (followingError) {
            channels.add(new Channel(AxisChannels.FOLLOWING_ERROR, setup.unit(), 1e-5));
        }
        TraceRecorder recorder = new TraceRecorder(channels, PERIOD);
        long origin = time.nanos() + 5 * PERIOD;
        recorder.origin(origin);
        long samples = Math.round(seconds * 1e9 / PERIOD) + 5;
        for (int i = 0; i <= samples; i++) {
            double t = Math.max(0, (i - 5) * PERIOD * 1e-9);
            double[] row = new double[channels.size()];
            row[0] = path.at(t);
            row[1] = t > 0 && t < seconds ? speed : 0;
            row[2] = t > 0 ? 20 : 0;
            recorder.add(time.nanos(), time.nanos() + 200_000, row);
            time.advance(PERIOD);
        }
        position = path.at(seconds);
        return recorder.trace();
    }
}
