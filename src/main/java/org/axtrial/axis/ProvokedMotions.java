package org.axtrial.axis;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.axis.Motions.Order;
import org.axtrial.axis.Motions.Ramp;
import org.axtrial.axis.Motions.Start;
import org.axtrial.drive.CommandRefusedException;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.DriveUnreachableException;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/**
 * Moves that are meant to end otherwise than at their target: at a limit, by a trip, or without a link. Each is checked
 * beforehand as if nothing would end it, so that an axis on which the provoked thing fails is still inside its envelope.
 */
final class ProvokedMotions {

    /** Samples of the axis at rest before the order. */
    private static final int REST_SAMPLES = 5;
    /** A link that fails so often in a row is gone. */
    private static final int FAILURES = 10;

    private static final long RETRY_NANOS = 20_000_000L;

    private final AxisSetup setup;
    private final Drive drive;
    private final TimeSource time;
    private final AxisSampler sampler;
    private final StopLatch latch;
    private final Motions motions;

    ProvokedMotions(
            AxisSetup setup, Drive drive, TimeSource time, AxisSampler sampler, StopLatch latch, Motions motions) {
        this.setup = setup;
        this.drive = drive;
        this.time = time;
        this.sampler = sampler;
        this.latch = latch;
        this.motions = motions;
    }

    /** A move under way. */
    private record Begun(Order order, Supervision motion, double from, double expected, double by) {}

    /** Moves by a distance that something is to cut short, and waits until the axis stands. */
    Motion untilStopped(Quantity distance, MoveOptions options, StopCause by)
            throws DriveException, InterruptedException {
        Order order = new Order(
                Motion.Kind.MOVE_UNTIL_STOPPED,
                distance,
                "a move by " + distance.printed() + " that " + by.text() + " is to end",
                options);
        Begun begun = begin(order, 1, start(distance, false));
        untilEnded(begun, by);
        return end(begun);
    }

    /** Moves by a distance with the start word sent twice, which must make one motion. */
    Motion startedTwice(Quantity distance, MoveOptions options) throws DriveException, InterruptedException {
        Order order = new Order(
                Motion.Kind.MOVE_BY, distance, "a move by " + distance.printed() + " that is started twice", options);
        Begun begun = begin(order, 2, start(distance, true));
        double arrived = motions.untilArrived(
                begun.motion(), order, begun.from(), begun.from() + 2 * begun.by(), begun.expected());
        begun.motion().mayRest();
        // A second motion would be under way by now, or begin at once.
        Motions.stepUntil(begun.motion(), arrived + begun.expected() + order.settle());
        motions.untilStanding(begun.motion(), order);
        return motion(begun, OptionalDouble.of(arrived));
    }

    /** Moves by a distance, loses the link on the way, and looks again. */
    LinkLoss withoutLink(Quantity distance, MoveOptions options, LinkCut cut, Optional<Runnable> pull)
            throws DriveException, InterruptedException {
        Order order = new Order(
                Motion.Kind.MOVE_UNTIL_STOPPED,
                distance,
                "a move by " + distance.printed() + " without a link",
                options);
        double after = cut.after().toNanos() * 1e-9;
        Begun begun = begin(order, 1, start(distance, false));
        Supervision motion = begun.motion();
        boolean byPerson = cut.how() == LinkCut.How.CABLE && pull.isEmpty();
        if (!byPerson && after >= begun.expected()) {
            throw new EnvelopeRefusedException(setup.name() + ": " + order.text() + " is over after "
                    + EnvelopeGuard.text(begun.expected(), Unit.SECOND) + ", before the link was to be lost after "
                    + EnvelopeGuard.text(after, Unit.SECOND) + "; make it longer or slower");
        }
        if (!byPerson) {
            Motions.stepUntil(motion, after);
        }
        AxisSample last = lose(begun, cut, pull);
        AxisSample found = findAgain(motion, cut);
        motion.mayRest();
        boolean stood = standsNow(motion, found);
        Motion made = end(begun);
        double rest = sampler.last().orElse(found).position();
        return new LinkLoss(
                made,
                motion.seconds(last),
                motion.seconds(found),
                last.position(),
                last.speed(),
                rest,
                stood,
                found.state().phase() == DriveState.Phase.ENABLED,
                told(found.state()));
    }

    private Start start(Quantity distance, boolean twice) {
        long counts = Math.round(setup.scale().toDrive(motions.inAxisUnit(distance), setup.unit(), Unit.COUNT));
        return twice
                ? limits -> drive.startRelativeTwice(counts, limits)
                : limits -> drive.startRelative(counts, limits);
    }

    /** Checks the whole way, as many times as it could be gone, and starts. */
    private Begun begin(Order order, int times, Start start) throws DriveException, InterruptedException {
        double by = motions.inAxisUnit(order.commanded());
        Ramp ramp = motions.ramp(order, order.options().speed().orElse(setup.speed()));
        motions.checkMove(order, ramp, motions.lastPosition(), from -> from + times * by);
        motions.requireEnabled(order);
        Supervision motion = motions.supervise();
        double from = motion.rest(REST_SAMPLES);
        motions.checkMove(order, ramp, from, start0 -> start0 + times * by);
        double expected = TrapezoidTime.of(Math.abs(by), Math.abs(ramp.speed()), ramp.acceleration());
        TrapezoidTime path = new TrapezoidTime(Math.abs(by), Math.abs(ramp.speed()), ramp.acceleration());
        if (order.kind() == Motion.Kind.MOVE_UNTIL_STOPPED) {
            motion.endMayCome();
        }
        motion.started(motions.launch(start, ramp), path::distanceAfter);
        return new Begun(order, motion, from, expected, by);
    }

    private void untilEnded(Begun begun, StopCause by) throws DriveException, InterruptedException {
        StandstillWatch watch = StandstillWatch.of(setup);
        boolean leftTarget = false;
        while (true) {
            AxisSample sample = begun.motion().step();
            double seconds = begun.motion().seconds(sample);
            boolean enabled = sample.state().phase() == DriveState.Phase.ENABLED;
            boolean stands = watch.standsAt(sample);
            if (!enabled) {
                if (by == StopCause.TRIP) {
                    return;
                }
                throw new DriveTrippedException(setup.name() + ": "
                        + begun.order().text() + " was ended by the drive," + " which shows " + told(sample.state()));
            }
            boolean limited = sample.state().limited();
            if (limited && stands && seconds > setup.standstillTime().toNanos() * 1e-9) {
                if (by == StopCause.LIMIT) {
                    return;
                }
                throw new DriveTrippedException(
                        setup.name() + ": " + begun.order().text() + " was ended by a limit at "
                                + EnvelopeGuard.position(sample.position(), setup));
            }
            leftTarget |= !sample.state().targetReached();
            if (sample.state().targetReached() && !limited && (leftTarget || seconds >= begun.expected())) {
                throw new NotStoppedException(
                        setup.name() + ": " + begun.order().text() + " went on to its target at "
                                + EnvelopeGuard.position(sample.position(), setup) + "; nothing ended it");
            }
            motions.requireInTime(begun.order(), seconds);
        }
    }

    static String told(DriveState state) {
        return state.phase()
                + (state.faultCode() == 0
                        ? ""
                        : String.format(", fault code %d (0x%04X)", state.faultCode(), state.faultCode()))
                + String.format(", status word 0x%04X", state.statusWord());
    }

    /** The last look before the link was lost. */
    private AxisSample lose(Begun begun, LinkCut cut, Optional<Runnable> pull)
            throws DriveException, InterruptedException {
        Supervision motion = begun.motion();
        if (cut.how() == LinkCut.How.CABLE) {
            AxisSample last = motion.step();
            pull.ifPresent(Runnable::run);
            return untilLost(begun, last);
        }
        AxisSample last = motion.step();
        if (cut.how() == LinkCut.How.CLOSE) {
            drive.drop();
        }
        long until = time.nanos() + cut.lasts().toNanos();
        while (time.nanos() < until) {
            // A stop from outside must not wait for the end of the silence.
            latch.check();
            time.sleepUntil(Math.min(until, time.nanos() + RETRY_NANOS));
        }
        return last;
    }

    private AxisSample untilLost(Begun begun, AxisSample before) throws DriveException, InterruptedException {
        AxisSample last = before;
        while (true) {
            try {
                last = begun.motion().step();
            } catch (DriveUnreachableException e) {
                return last;
            }
            double seconds = begun.motion().seconds(last);
            if (last.state().targetReached() && seconds >= begun.expected()) {
                throw new NotStoppedException(setup.name() + ": "
                        + begun.order().text() + " was over before the cable was pulled; make it longer or slower");
            }
            motions.requireInTime(begun.order(), seconds);
        }
    }

    private AxisSample findAgain(Supervision motion, LinkCut cut) throws DriveException, InterruptedException {
        Deadline patience = Deadline.in(time, cut.lasts().plus(setup.stopTime()));
        while (true) {
            latch.check();
            try {
                drive.reconnect();
                return motion.step();
            } catch (DriveUnreachableException e) {
                if (patience.isPassed()) {
                    throw e;
                }
                time.sleepUntil(time.nanos() + RETRY_NANOS);
            }
        }
    }

    /** Whether the axis stays where it was found for the time that standstill takes. */
    private boolean standsNow(Supervision motion, AxisSample found) throws DriveException, InterruptedException {
        StandstillWatch watch = StandstillWatch.of(setup);
        double window = SafeStop.windowInAxisUnit(setup);
        AxisSample sample = found;
        while (!watch.standsAt(sample)) {
            if (Math.abs(sample.position() - found.position()) > window) {
                // It runs on although nobody watched it: that is seen now, and it is stopped.
                drive.stop();
                return false;
            }
            sample = motion.step();
        }
        return true;
    }

    /** Takes the target away where the drive still has it, and waits for standstill. */
    private Motion end(Begun begun) throws DriveException, InterruptedException {
        Supervision motion = begun.motion();
        motion.mayRest();
        if (sampler.last().map(sample -> sample.state().phase()).orElse(DriveState.Phase.UNKNOWN)
                == DriveState.Phase.ENABLED) {
            drive.stop();
        }
        motions.untilStanding(motion, begun.order());
        Motions.stepUntil(motion, motion.seconds() + begun.order().settle());
        return motion(begun, OptionalDouble.empty());
    }

    private Motion motion(Begun begun, OptionalDouble arrived) {
        return new Motion(
                begun.order().kind(),
                setup.name(),
                setup.scale(),
                begun.order().commanded(),
                begun.motion().trace(),
                begun.from(),
                OptionalDouble.of(begun.expected()),
                arrived,
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    /** Looks until the link is lost, and then until it stands anew. */
    AxisSample restart(Duration within) throws DriveException, InterruptedException {
        Deadline off = Deadline.in(time, within);
        while (true) {
            latch.check();
            if (off.isPassed()) {
                throw new NotStoppedException(
                        setup.name() + ": the drive went on answering, so its supply was not switched" + " off");
            }
            try {
                sampler.look();
                time.sleepUntil(time.nanos() + RETRY_NANOS);
            } catch (DriveUnreachableException e) {
                break;
            }
        }
        Deadline on = Deadline.in(time, within);
        while (true) {
            latch.check();
            try {
                drive.reconnect();
                return sampler.look();
            } catch (DriveUnreachableException e) {
                if (on.isPassed()) {
                    throw e;
                }
                time.sleepUntil(time.nanos() + RETRY_NANOS);
            }
        }
    }

    /** Looks at the drive again and again, as fast as it answers; a look that fails is counted, not repeated. */
    LinkTimes times(int reads) throws DriveException, InterruptedException {
        List<Double> seconds = new ArrayList<>(reads);
        int errors = 0;
        int inARow = 0;
        for (int read = 0; read < reads; read++) {
            latch.check();
            try {
                AxisSample sample = sampler.look();
                seconds.add((sample.repliedNanos() - sample.sentNanos()) * 1e-9);
                inARow = 0;
            } catch (DriveUnreachableException | CommandRefusedException e) {
                errors++;
                inARow++;
                if (inARow == FAILURES) {
                    throw e;
                }
                drive.reconnect();
            }
        }
        return new LinkTimes(seconds, errors);
    }
}
