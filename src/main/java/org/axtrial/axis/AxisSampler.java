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

    private final Drive drive;
    private final AxisSetup setup;
    private final DriveUnits units;
    private final Unit speedUnit;

    private boolean referenced;
    private long lastCounts;
    /** Unwrapped register counts from the zero of the axis, without the sign of the axis. */
    private long travelledCounts;

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
            travelledCounts += CountDelta.between(units.positionBits(), lastCounts, counts);
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
