package org.axtrial.axis;

import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Supplier;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.Started;
import org.axtrial.time.TimeSource;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;

/**
 * Samples an axis at its ordered period and holds every sample against latch, drive state and envelope. One object for
 * one motion, used by the thread that works the axis. It finds what is wrong and throws; stopping is for the caller.
 */
final class Supervision {

    private final AxisSetup setup;
    private final AxisSampler sampler;
    private final EnvelopeGuard guard;
    private final StopLatch latch;
    private final TimeSource time;
    private final Supplier<AxisListener> listener;
    private final TraceRecorder recorder;
    private final StaleWatch staleWatch;
    private final TornWatch tornWatch;
    private final long periodNanos;

    private long next;
    private long origin;
    private boolean torqueExpected;
    private boolean endMayCome;
    private boolean tripKnown;
    private Optional<AwaitedStop> awaited = Optional.empty();
    private Optional<AxisSample> previous = Optional.empty();

    Supervision(
            AxisSetup setup,
            AxisSampler sampler,
            EnvelopeGuard guard,
            StopLatch latch,
            TimeSource time,
            Supplier<AxisListener> listener) {
        this.setup = setup;
        this.sampler = sampler;
        this.guard = guard;
        this.latch = latch;
        this.time = time;
        this.listener = listener;
        this.periodNanos = setup.samplePeriod().toNanos();
        this.recorder = new TraceRecorder(sampler.channels(), periodNanos);
        this.staleWatch = new StaleWatch(setup);
        this.tornWatch = new TornWatch(setup);
        this.next = time.nanos();
    }

    /** Takes some samples of the axis at rest and returns their mean position. */
    double rest(int samples) throws DriveException, InterruptedException {
        double sum = 0;
        for (int i = 0; i < samples; i++) {
            sum += step().position();
        }
        return sum / samples;
    }

    /**
     * The motion has been ordered: time zero, and from now on the drive must stay enabled and the axis must be seen to
     * move.
     *
     * @param path distance that the order makes after so many seconds, in axis units, growing
     */
    void started(Started start, DoubleUnaryOperator path) {
        previous.ifPresent(rest -> staleWatch.ordered(path, rest));
        // Time zero is the middle of the exchange, as for samples; its half round trip stands in the uncertainty
        // budget.
        origin = start.sentNanos() + (start.repliedNanos() - start.sentNanos()) / 2;
        recorder.origin(origin);
        torqueExpected = true;
    }

    /** The drive may end the motion by itself: what it says of that is for the caller to judge. */
    void endMayCome() {
        endMayCome = true;
    }

    /** Time zero for a motion that orders nothing. */
    void startedNow() {
        origin = time.nanos();
        recorder.origin(origin);
    }

    /** A person is about to stop the axis, so that its stop is no trouble. */
    void await(AwaitedStop stop) {
        awaited = Optional.of(stop);
    }

    /** Nobody stops the axis any more but this program. */
    void awaitNoMore() {
        awaited = Optional.empty();
    }

    /** The drive has tripped before, as it was meant to; its fault is no news. */
    void tripIsKnown() {
        tripKnown = true;
    }

    /** Seconds since time zero. */
    double seconds() {
        return (time.nanos() - origin) * 1e-9;
    }

    double seconds(AxisSample sample) {
        return (sample.midNanos() - origin) * 1e-9;
    }

    /**
     * Waits for the next sample time, looks, keeps the sample and checks it.
     *
     * @throws AxisException for the first thing that is wrong; the axis has not been stopped yet
     */
    AxisSample step() throws DriveException, InterruptedException {
        latch.check();
        time.sleepUntil(next);
        // A late sample is not made up for by a burst: the next one is a full period away from the plan or from now.
        next = Math.max(next + periodNanos, time.nanos());
        AxisSample sample = sampler.look();
        recorder.add(sample.sentNanos(), sample.repliedNanos(), sampler.row(sample));
        listener.get().sampled(setup.name(), sample.position(), sample.speed());
        latch.check();
        awaited.ifPresent(stop -> stop.see(setup.name(), sample, seconds(sample)));
        if (awaited.isEmpty() && !endMayCome) {
            checkState(sample.state());
        }
        tornWatch.torn(sample).ifPresent(this::outOfSight);
        Optional<String> stale = staleWatch.stale(sample, seconds(sample));
        boolean excused =
                awaited.filter(stop -> stop.excuses(sample)).isPresent() || (endMayCome && hasEnded(sample.state()));
        if (!excused) {
            stale.ifPresent(why -> standsStill(why, sample));
        }
        Optional<String> violation = guard.violation(sample, previous);
        previous = Optional.of(sample);
        if (violation.isPresent()) {
            throw new EnvelopeTrippedException(violation.get());
        }
        return sample;
    }

    /** The end of the motion has been ordered, so the axis may stand. */
    void mayRest() {
        staleWatch.mayRest();
    }

    /** The drive says that the axis has arrived. */
    void arrived(double distance) {
        staleWatch.neverMoved(distance).ifPresent(this::outOfSight);
    }

    private static boolean hasEnded(DriveState state) {
        return state.phase() != DriveState.Phase.ENABLED || state.limited();
    }

    /** A drive that says what holds the axis is not out of sight. */
    private void standsStill(String why, AxisSample sample) {
        if (sample.state().limited()) {
            throw new DriveTrippedException(setup.name() + " was ordered to move and stands at "
                    + EnvelopeGuard.position(sample.position(), setup)
                    + ": the drive says that an internal limit holds it"
                    + String.format(
                            " (status word 0x%04X, bit 11)", sample.state().statusWord())
                    + ". Look at the limit switches, the software limits and the torque limit");
        }
        outOfSight(why);
    }

    /** What the registers show is not what the axis does: whoever stops it now must not take them for proof. */
    private void outOfSight(String why) {
        sampler.doubt();
        throw new AxisUnreachableException(why, new IllegalStateException(why));
    }

    private void checkState(DriveState state) {
        if (state.phase() == DriveState.Phase.FAULT && !tripKnown) {
            throw new DriveTrippedException(setup.name() + ": the drive shows fault code " + state.faultCode()
                    + String.format(" (0x%04X)", state.faultCode()) + "; see the drive's manual, then reset it there");
        }
        if (torqueExpected && state.phase() != DriveState.Phase.ENABLED) {
            throw new DriveTrippedException(setup.name() + ": the drive left the enabled state while moving; it shows "
                    + state.phase() + String.format(", status word 0x%04X", state.statusWord()));
        }
    }

    Trace trace() {
        return recorder.trace();
    }
}
