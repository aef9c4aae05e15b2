package org.axtrial.axis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveUnits;
import org.axtrial.drive.Sample;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.CountDelta;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;

/**
 * Looks at a drive and tells what the axis does. Keeps the unwrapped position, so that a position register which wraps
 * does not make the axis jump. Safe to use from the working thread and from a stopping thread.
 */
final class AxisSampler {

    private static final String POSITION = "position";
    private static final String DEMAND = "demandPosition";
    private static final String SPEED = "speed";
    private static final String TORQUE = "torque";
    private static final String FOLLOWING_ERROR = "followingError";
    private static final String INTERNAL = "internalPosition";
    /** A homing sets its register once, some drives at the switch and at the index; an axis that runs away jumps for ever. */
    private static final int MOST_NEW_ZEROS = 2;

    private final Drive drive;
    private final AxisSetup setup;
    private final DriveUnits units;
    private final Unit speedUnit;

    private boolean referenced;
    private long lastCounts;
    /** Unwrapped register counts from the zero of the axis, without the sign of the axis. */
    private long travelledCounts;

    /** Counts per second that no shaft of this axis makes; only while the drive may set its position register anew. */
    private OptionalDouble jumpAbove = OptionalDouble.empty();

    private long lastInternal;
    private int newZeros;
    /** Register counts by which the drive set its register anew. */
    private long newZeroBy;

    private Optional<AxisSample> last = Optional.empty();
    /** A look that is thought to be stale, until another one differs from it. */
    private Optional<AxisSample> doubted = Optional.empty();

    AxisSampler(AxisSetup setup, Drive drive) {
        this.setup = setup;
        this.drive = drive;
        this.units = drive.units();
        this.speedUnit = setup.unit().perSecond();
    }

    /** The columns that {@link #row} fills, in order. */
    List<Channel> channels() {
        AxisScale scale = setup.scale();
        double count = Math.abs(scale.convert(1, Unit.COUNT, setup.unit()));
        List<Channel> channels = new ArrayList<>();
        channels.add(new Channel(AxisChannels.POSITION, setup.unit(), count));
        if (declares(DEMAND)) {
            channels.add(new Channel(AxisChannels.DEMAND, setup.unit(), count));
        }
        channels.add(new Channel(
                AxisChannels.SPEED, speedUnit, Math.abs(scale.fromDrive(quantum(SPEED), unit(SPEED), speedUnit))));
        channels.add(new Channel(
                AxisChannels.TORQUE, Unit.PERCENT, Math.abs(unit(TORQUE).convert(quantum(TORQUE), Unit.PERCENT))));
        if (declares(FOLLOWING_ERROR)) {
            channels.add(new Channel(AxisChannels.FOLLOWING_ERROR, setup.unit(), count));
        }
        channels.add(new Channel(AxisChannels.COUNTS, Unit.COUNT, 1));
        channels.add(new Channel(AxisChannels.STATUS, Unit.ONE, 1));
        return channels;
    }

    /** The values of a sample in the order of {@link #channels}. */
    double[] row(AxisSample sample) {
        double[] row = new double[5 + (declares(DEMAND) ? 1 : 0) + (declares(FOLLOWING_ERROR) ? 1 : 0)];
        int column = 0;
        row[column++] = sample.position();
        if (declares(DEMAND)) {
            row[column++] = sample.demand().orElseThrow();
        }
        row[column++] = sample.speed();
        row[column++] = sample.torque();
        if (declares(FOLLOWING_ERROR)) {
            row[column++] = sample.followingError().orElseThrow();
        }
        row[column++] = sample.counts();
        row[column] = sample.state().statusWord();
        return row;
    }

    /** Looks at the drive now. */
    synchronized AxisSample look() throws DriveException {
        Sample raw = drive.sample();
        long counts = Math.round(raw.value(POSITION));
        if (referenced) {
            travelledCounts += travelled(CountDelta.between(units.positionBits(), lastCounts, counts), raw);
        } else {
            travelledCounts = setup.zero() == AxisSetup.PositionZero.DRIVE ? counts : 0;
            referenced = true;
        }
        lastCounts = counts;
        AxisScale scale = setup.scale();
        AxisSample sample = new AxisSample(
                position(travelledCounts),
                map(
                        raw.find(DEMAND),
                        demand -> position(travelledCounts
                                + CountDelta.between(units.positionBits(), counts, Math.round(demand)))),
                scale.fromDrive(raw.value(SPEED), unit(SPEED), speedUnit),
                scale.direction() * unit(TORQUE).convert(raw.value(TORQUE), Unit.PERCENT),
                map(raw.find(FOLLOWING_ERROR), error -> scale.fromDrive(error, Unit.COUNT, setup.unit())),
                counts,
                raw.state(),
                raw.sentNanos(),
                raw.repliedNanos());
        last = Optional.of(sample);
        doubted = doubted.filter(stale -> showsTheSame(stale, sample));
        return sample;
    }

    /**
     * What a change of the register says about the shaft. While homing the drive gives its register a new zero: such a
     * jump is no motion. What the shaft went in that moment stands in the internal position, or else follows from its
     * speed.
     */
    private long travelled(long change, Sample now) {
        if (jumpAbove.isEmpty() || last.isEmpty()) {
            return change;
        }
        long went = change;
        if (units.internalBits().isPresent()) {
            long internal = Math.round(now.value(INTERNAL));
            went = CountDelta.between(units.internalBits().getAsInt(), lastInternal, internal);
            lastInternal = internal;
        } else if (newZeros < MOST_NEW_ZEROS
                && Math.abs(change)
                        > jumpAbove.getAsDouble() * seconds(last.get().sentNanos(), now.repliedNanos())) {
            newZeros++;
            double between =
                    seconds(last.get().midNanos(), now.sentNanos() + (now.repliedNanos() - now.sentNanos()) / 2);
            went = Math.round(setup.scale().toDrive(last.get().speed() * between, setup.unit(), Unit.COUNT));
        }
        newZeroBy += change - went;
        return went;
    }

    private static double seconds(long from, long to) {
        return (to - from) * 1e-9;
    }

    /**
     * The drive may set its position register anew from now on.
     *
     * @param fastest speed that the shaft cannot exceed, in axis units per second
     */
    synchronized void expectNewZero(double fastest) throws DriveException {
        if (units.internalBits().isPresent()) {
            lastInternal = Math.round(drive.read(INTERNAL));
        }
        newZeroBy = 0;
        newZeros = 0;
        jumpAbove = OptionalDouble.of(Math.abs(setup.scale().toDrive(fastest, setup.unit(), Unit.COUNT)));
    }

    /** The register keeps its zero from now on. */
    synchronized void expectNoNewZero() {
        jumpAbove = OptionalDouble.empty();
    }

    /**
     * By how much the register was set anew since {@link #expectNewZero}, in axis units; empty if the drive does not report
     * the internal position that it takes to know.
     */
    synchronized OptionalDouble newZeroBy() {
        return units.internalBits().isPresent() ? OptionalDouble.of(position(newZeroBy)) : OptionalDouble.empty();
    }

    /** The register has been referenced: an axis that counts from the zero of its drive takes that zero. */
    synchronized void takeNewZero() {
        if (setup.zero() == AxisSetup.PositionZero.DRIVE) {
            travelledCounts = lastCounts;
        }
    }

    /** From now on the registers prove nothing, until one of them changes. */
    synchronized void doubt() {
        doubted = last;
    }

    synchronized boolean isDoubtful() {
        return doubted.isPresent();
    }

    private static boolean showsTheSame(AxisSample one, AxisSample other) {
        return one.counts() == other.counts()
                && one.demand().equals(other.demand())
                && one.speed() == other.speed()
                && one.torque() == other.torque()
                && one.followingError().equals(other.followingError())
                && one.state().equals(other.state());
    }

    /** What was seen last; empty before the first look. */
    synchronized Optional<AxisSample> last() {
        return last;
    }

    /** The register position that stands for a position of the axis, in counts. */
    synchronized long registerCounts(double position) {
        long wanted = Math.round(setup.scale().toDrive(position, setup.unit(), Unit.COUNT));
        return lastCounts + (wanted - travelledCounts);
    }

    Unit speedUnit() {
        return speedUnit;
    }

    private double position(long counts) {
        return setup.scale().fromDrive((double) counts, Unit.COUNT, setup.unit());
    }

    private boolean declares(String signal) {
        return units.signals().containsKey(signal);
    }

    private Unit unit(String signal) {
        Unit unit = units.signals().get(signal);
        if (unit == null) {
            throw new IllegalStateException("the drive description declares no " + signal);
        }
        return unit;
    }

    private double quantum(String signal) {
        return units.quanta().getOrDefault(signal, 0.0);
    }

    private static OptionalDouble map(OptionalDouble value, java.util.function.DoubleUnaryOperator function) {
        return value.isPresent() ? OptionalDouble.of(function.applyAsDouble(value.getAsDouble())) : value;
    }
}
