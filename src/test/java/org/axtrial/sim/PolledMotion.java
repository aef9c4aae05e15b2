package org.axtrial.sim;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import org.axtrial.link.LinkException;
import org.axtrial.link.Reply;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;

/**
 * A motion of a simulated drive, polled over a link in virtual time as the runner does, and what its shaft truly did.
 *
 * @param trace positions in counts, with five samples before the command
 * @param shaftFrom true angle before the command, in counts
 * @param shaftTo true angle after the last sample, in counts
 * @param shaftSpeed mean true speed over the samples from 0.3 s on, counts per second
 */
public record PolledMotion(Trace trace, double shaftFrom, double shaftTo, double shaftSpeed) {

    /** Name of the only channel. */
    public static final String POSITION = "position";

    private static final double COUNT = 2 * Math.PI / InventedDrives.COUNTS;
    private static final double STEADY_FROM = 0.3;
    private static final int BEFORE = 12;

    /** Moves by so many counts and waits until a second is over. */
    public static PolledMotion move(long seed, double noise, double period, int counts) {
        return new Run(seed, noise, period).order("relativeMove", counts);
    }

    /** Holds a speed until a second is over; r/min. */
    public static PolledMotion hold(long seed, double noise, double period, double speed) {
        return new Run(seed, noise, period).order("speedCommand", speed);
    }

    /** Exchanges take 1 to 4 ms, and reach the drive at any moment of them, drawn anew for each. */
    private static final class Wire {

        private static final long SHORTEST_NANOS = 1_000_000;
        private static final long LONGEST_NANOS = 4_000_000;

        private final SplittableRandom random;
        private final VirtualTime time;

        Wire(SplittableRandom random, VirtualTime time) {
            this.random = random;
            this.time = time;
        }

        /** A request and its reply. */
        Reply carry(Request request) throws LinkException {
            long sent = time.nanos();
            long trip = random.nextLong(SHORTEST_NANOS, LONGEST_NANOS);
            long there = random.nextLong(trip + 1);
            time.advance(there);
            Reply reply = request.send();
            time.advance(trip - there);
            return new Reply(reply.words(), sent, time.nanos());
        }
    }

    @FunctionalInterface
    private interface Request {
        Reply send() throws LinkException;
    }

    private static final class Run {

        /** A drive that was switched on this long ago still creeps into its place by parts of a count, or stands. */
        private static final long SHORTEST_REST_NANOS = 100_000_000;

        private static final long LONGEST_REST_NANOS = 1_000_000_000;

        private final DriveDescription description = InventedDrives.direct();
        private final VirtualTime time = new VirtualTime(Instant.EPOCH);
        private final SimulatedDrive drive;
        private final InProcessLink link;
        private final SplittableRandom random;
        private final Wire wire;
        private final long periodNanos;
        private final TraceRecorder recorder;

        Run(long seed, double noise, double period) {
            SimulationSpec made = InventedDrives.axis();
            SimulationSpec.Wire none = new SimulationSpec.Wire(Duration.ZERO, Duration.ZERO);
            random = new SplittableRandom(seed);
            drive = new SimulatedDrive(
                    "study",
                    description,
                    new SimulationSpec(
                            made.motor(), made.load(), made.feedback().withNoise(noise), made.loops(), none, seed));
            link = new InProcessLink(drive, time);
            wire = new Wire(random.split(), time);
            periodNanos = Math.round(period * 1e9);
            recorder = new TraceRecorder(List.of(new Channel(POSITION, Unit.COUNT, 1)), periodNanos);
        }

        PolledMotion order(String signal, double value) {
            try {
                time.advance(20_000_000);
                write("command", 1);
                time.advance(random.nextLong(SHORTEST_REST_NANOS, LONGEST_REST_NANOS));
                for (int i = 0; i < BEFORE; i++) {
                    sample();
                }
                double from = drive.truth().motorAngle() / COUNT;
                Reply ordered = write(signal, value);
                long origin = ordered.sentNanos() + (ordered.repliedNanos() - ordered.sentNanos()) / 2;
                recorder.origin(origin);
                double speeds = 0;
                int steady = 0;
                while (time.nanos() < origin + 1_000_000_000L) {
                    sample();
                    if (time.nanos() > origin + STEADY_FROM * 1e9) {
                        speeds += drive.truth().motorSpeed() / COUNT;
                        steady++;
                    }
                }
                return new PolledMotion(recorder.trace(), from, drive.truth().motorAngle() / COUNT, speeds / steady);
            } catch (LinkException e) {
                throw new IllegalStateException("a sound link does not fail", e);
            }
        }

        private void sample() throws LinkException {
            SignalSpec position = description.value(POSITION).orElseThrow();
            Reply reply = wire.carry(() -> link.read(
                    position.table() == RegisterTable.INPUT ? RegisterServer.READ_INPUT : RegisterServer.READ_HOLDING,
                    position.address(),
                    position.registers()));
            recorder.add(
                    reply.sentNanos(), reply.repliedNanos(), new double[] {RegisterCodec.decode(position, reply.words())
                    });
            time.advance(Math.max(0, reply.sentNanos() + periodNanos - time.nanos()));
        }

        private Reply write(String name, double value) throws LinkException {
            SignalSpec signal = description.value(name).orElseThrow();
            return wire.carry(() -> link.writeBlock(signal.address(), RegisterCodec.encode(signal, value)));
        }
    }
}
