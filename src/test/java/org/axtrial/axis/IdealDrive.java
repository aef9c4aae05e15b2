package org.axtrial.axis;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.drive.CommandRefusedException;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DrivePeak;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.DriveStateException;
import org.axtrial.drive.DriveUnits;
import org.axtrial.drive.DriveUnreachableException;
import org.axtrial.drive.Homing;
import org.axtrial.drive.MotionLimits;
import org.axtrial.drive.OutcomeUnknownException;
import org.axtrial.drive.Sample;
import org.axtrial.drive.Started;
import org.axtrial.drive.WrongDriveException;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.VirtualTime;

/**
 * A drive without a plant: it follows its trapezoid to the count, in virtual time, and every look costs 1 ms. Tests tell
 * it what to do wrong. Position is in counts, 1000 to a revolution; speeds are revolutions per second of the motor.
 */
final class IdealDrive implements Drive {

    static final int COUNTS = 1000;
    private static final long EXCHANGE = 1_000_000;

    final VirtualTime time;
    final List<String> commands = new CopyOnWriteArrayList<>();
    /** What the next calls of a command do wrong, by name of the command. */
    final Map<String, Deque<Fault>> faults = new HashMap<>();

    /** Parameters in counts, writable all of them. */
    final Map<String, Double> parameters = new HashMap<>(Map.of("window", 42.0, "trip", 500.0));

    /** What its latches show; it has none as long as this is empty. */
    final List<DrivePeak> peaks = new CopyOnWriteArrayList<>();

    /** Whether it reports its internal position. */
    boolean internalPosition;

    /** How far a homing goes, in counts, and what comes of it. */
    double homeDistance = -300;

    Homing homingEnd = Homing.COMPLETED;
    Optional<Quantity> homingSpeed = Optional.of(Quantity.parse("30 rpm"));
    private Homing homing = Homing.NOT_STARTED_OR_INTERRUPTED;

    boolean enabled;
    boolean linkUp = true;
    int faultCode;
    double torque;
    /** Where the position is bent away from the ideal one; counts in, counts out. */
    DoubleUnaryOperator bend = position -> position;
    /** Whether a stop does anything. */
    boolean obeysStop = true;
    /** Whether the word that the target is reached ever comes. */
    boolean tellsArrival = true;

    double registerOffset;
    Runnable onSample = () -> {};
    /** Runs when a stop has arrived. */
    Runnable onStop = () -> {};
    /** Runs while a starting command is on its way to the drive. */
    Runnable onStart = () -> {};

    private double from;
    private double distance;
    private double speed;
    private double acceleration = 1;
    private long began;
    private Mode mode = Mode.REST;

    /** How a command goes wrong. */
    enum Fault {
        /** It acts, and nobody hears of it. */
        REPLY_LOST,
        /** It does not act, and nobody knows. */
        REQUEST_LOST,
        LINK_DOWN,
        WRONG_DRIVE,
        REFUSED,
        STATE
    }

    private enum Mode {
        REST,
        MOVE,
        SPEED
    }

    IdealDrive(VirtualTime time) {
        this.time = time;
    }

    /** A turntable on this drive: ± 2 rev, 600 r/min, samples 5 ms apart. */
    static AxisSetup axis(int direction) {
        return axis("TURNTABLE", direction);
    }

    /** The same by another name. */
    static AxisSetup axis(String name, int direction) {
        return new AxisSetup(
                name,
                new AxisScale(COUNTS, 1, 1, 1, 1, null, direction),
                Unit.REVOLUTION,
                AxisSetup.PositionZero.RUN_START,
                new Envelope(
                        Quantity.parse("-2 rev"),
                        Quantity.parse("2 rev"),
                        Quantity.parse("600 rpm"),
                        Quantity.parse("100 rev/s2"),
                        Optional.of(Quantity.parse("80 %")),
                        Duration.ofSeconds(10)),
                Quantity.parse("120 rpm"),
                Quantity.parse("20 rev/s2"),
                Duration.ofMillis(5),
                Quantity.parse("3 count"),
                Duration.ofMillis(50),
                Duration.ofSeconds(1),
                AxisSetup.AfterTrial.DISABLE,
                Optional.empty());
    }

    void fail(String command, Fault fault) {
        faults.computeIfAbsent(command, key -> new ArrayDeque<>()).add(fault);
    }

    long count(String command) {
        return commands.stream().filter(line -> line.startsWith(command)).count();
    }

    @Override
    public DriveUnits units() {
        return new DriveUnits(
                16,
                Map.of(
                        "position", Unit.COUNT,
                        "demandPosition", Unit.COUNT,
                        "speed", Unit.REVOLUTION_PER_SECOND,
                        "torque", Unit.PERCENT),
                Map.of("position", 1.0, "demandPosition", 1.0, "speed", 0.001, "torque", 0.1),
                Unit.REVOLUTION_PER_SECOND,
                Unit.REVOLUTION_PER_SECOND,
                Unit.REVOLUTION_PER_SECOND_SQUARED,
                true,
                internalPosition ? OptionalInt.of(16) : OptionalInt.empty());
    }

    @Override
    public Sample sample() throws DriveException {
        requireLink();
        act("sample", () -> {}, false);
        long sent = time.nanos();
        time.advance(EXCHANGE / 2);
        onSample.run();
        double position = position();
        double wrapped = (short) Math.round(bend.applyAsDouble(position) + registerOffset);
        Map<String, Double> values = Map.of(
                "position", wrapped,
                "demandPosition", wrapped,
                "speed", currentSpeed() / COUNTS,
                "torque", torque,
                "internalPosition", internal());
        DriveState state = state();
        time.advance(EXCHANGE / 2);
        return new Sample(values, state, sent, time.nanos());
    }

    private DriveState state() {
        DriveState.Phase phase = faultCode != 0
                ? DriveState.Phase.FAULT
                : enabled ? DriveState.Phase.ENABLED : DriveState.Phase.DISABLED;
        return new DriveState(phase, tellsArrival && currentSpeed() == 0, enabled ? 0x27 : 0x40, faultCode);
    }

    double position() {
        double t = (time.nanos() - began) * 1e-9;
        return switch (mode) {
            case REST -> from;
            case MOVE -> from + Math.signum(distance) * trapezoid(t);
            case SPEED -> from + Math.signum(speed) * ramped(t);
        };
    }

    private double ramped(double t) {
        double ramp = Math.abs(speed) / acceleration;
        return t < ramp ? acceleration * t * t / 2 : Math.abs(speed) * (t - ramp / 2);
    }

    private double trapezoid(double t) {
        double total = TrapezoidTime.of(Math.abs(distance), speed, acceleration);
        double ramp = Math.min(speed / acceleration, Math.sqrt(Math.abs(distance) / acceleration));
        if (t >= total) {
            return Math.abs(distance);
        }
        double peak = ramp * acceleration;
        if (t < ramp) {
            return acceleration * t * t / 2;
        }
        if (t < total - ramp) {
            return peak * (t - ramp / 2);
        }
        double left = total - t;
        return Math.abs(distance) - acceleration * left * left / 2;
    }

    private double currentSpeed() {
        double t = (time.nanos() - began) * 1e-9;
        return switch (mode) {
            case REST -> 0;
            case MOVE -> moveSpeed(t);
            case SPEED -> Math.signum(speed) * Math.min(Math.abs(speed), acceleration * t);
        };
    }

    private double moveSpeed(double t) {
        double total = TrapezoidTime.of(Math.abs(distance), speed, acceleration);
        double size = Math.min(speed, acceleration * Math.min(t, Math.max(0, total - t)));
        return Math.signum(distance) * size;
    }

    @Override
    public double read(String name) throws DriveException {
        requireLink();
        return name.equals("internalPosition") ? internal() : declared(name);
    }

    private double internal() {
        return (short) Math.round(bend.applyAsDouble(position()));
    }

    private double declared(String name) {
        Double value = parameters.get(name);
        if (value == null) {
            throw new IllegalArgumentException("the drive declares no \"" + name + "\"");
        }
        return value;
    }

    @Override
    public Unit unit(String name) {
        declared(name);
        return Unit.COUNT;
    }

    @Override
    public double nearest(String name, double value) {
        declared(name);
        return Math.rint(value);
    }

    @Override
    public void save(String name) throws DriveException {
        act("save " + name, () -> {}, true);
    }

    @Override
    public double write(String name, double value) throws DriveException {
        act("write " + name + " " + value, () -> parameters.put(name, value), true);
        return value;
    }

    @Override
    public void clearPeaks() throws DriveException {
        if (!peaks.isEmpty()) {
            act("clearPeaks", () -> {}, true);
        }
    }

    @Override
    public List<DrivePeak> peaks() throws DriveException {
        if (!peaks.isEmpty()) {
            act("peaks", () -> {}, false);
        }
        return List.copyOf(peaks);
    }

    @Override
    public void enable(Duration within) throws DriveException {
        act("enable", () -> enabled = true, true);
    }

    @Override
    public void disable(Duration within) throws DriveException {
        act("disable", () -> enabled = false, true);
    }

    @Override
    public void resetFault(Duration within) throws DriveException {
        act("resetFault", () -> faultCode = 0, true);
    }

    @Override
    public Started startRelative(long counts, MotionLimits limits) throws DriveException {
        return start("relative " + counts, () -> move((double) counts, limits));
    }

    @Override
    public Started startAbsolute(long counts, MotionLimits limits) throws DriveException {
        return start("absolute " + counts, () -> move(counts - registerOffset - position(), limits));
    }

    @Override
    public Started startSpeed(double wanted, MotionLimits limits) throws DriveException {
        return start("speed " + wanted, () -> {
            from = position();
            began = time.nanos();
            speed = wanted * COUNTS;
            acceleration = limits.acceleration() * COUNTS;
            mode = Mode.SPEED;
        });
    }

    private void move(double counts, MotionLimits limits) {
        from = position();
        began = time.nanos();
        distance = counts;
        speed = limits.speed() * COUNTS;
        acceleration = limits.acceleration() * COUNTS;
        mode = Mode.MOVE;
    }

    private Started start(String command, Runnable action) throws DriveException {
        long sent = time.nanos();
        onStart.run();
        act(command, action, true);
        return new Started(sent, time.nanos());
    }

    @Override
    public Started startHoming() throws DriveException {
        return start("home", () -> {
            homing = Homing.IN_PROGRESS;
            move(homeDistance, new MotionLimits(0.5, 10, OptionalDouble.empty()));
        });
    }

    @Override
    public Homing homing(DriveState state) {
        if (homing == Homing.IN_PROGRESS && currentSpeed() == 0) {
            homing = homingEnd;
            if (homingEnd == Homing.COMPLETED) {
                registerOffset = -position();
            }
        }
        return homing;
    }

    @Override
    public Optional<Quantity> homingSpeed() {
        return homingSpeed;
    }

    @Override
    public void stop() throws DriveException {
        act(
                "stop",
                () -> {
                    onStop.run();
                    if (obeysStop) {
                        from = position();
                        mode = Mode.REST;
                    }
                },
                true);
    }

    @Override
    public Started startRelativeTwice(long counts, MotionLimits limits) throws DriveException {
        return startRelative(counts, limits);
    }

    @Override
    public void drop() {
        linkUp = false;
    }

    @Override
    public List<String> parameterNames() {
        return List.of("positionWindow");
    }

    @Override
    public Map<String, String> identification() {
        return Map.of("productCode", "ideal");
    }

    @Override
    public void reconnect() throws DriveException {
        act("reconnect", () -> linkUp = true, false);
    }

    @Override
    public String peer() {
        return "ideal drive";
    }

    private void requireLink() throws DriveException {
        if (!linkUp) {
            throw new DriveUnreachableException("the connection is closed", new IllegalStateException("closed"));
        }
    }

    private void act(String command, Runnable action, boolean needsLink) throws DriveException {
        if (needsLink) {
            requireLink();
        }
        if (!command.equals("sample")) {
            commands.add(command);
        }
        Deque<Fault> queue = faults.getOrDefault(command.split(" ", 2)[0], new ArrayDeque<>());
        Fault fault = queue.poll();
        if (fault == null || fault == Fault.REPLY_LOST) {
            action.run();
        }
        if (fault != null) {
            throwFor(fault);
        }
    }

    private void throwFor(Fault fault) throws DriveException {
        IllegalStateException cause = new IllegalStateException("told to fail");
        switch (fault) {
            case REPLY_LOST, REQUEST_LOST -> {
                linkUp = false;
                time.advance(300_000_000);
                throw new OutcomeUnknownException("no reply within 300 ms", cause);
            }
            case LINK_DOWN -> {
                linkUp = false;
                throw new DriveUnreachableException("the connection is closed", cause);
            }
            case WRONG_DRIVE -> throw new WrongDriveException("another drive answers");
            case REFUSED -> throw new CommandRefusedException("exception 04, server device failure", cause);
            case STATE -> throw new DriveStateException("shows READY instead of ENABLED", state());
        }
    }
}
