package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.axtrial.measure.FollowingError;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Torque;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.trace.Channel;
import org.axtrial.trace.LatchedPeak;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;
import org.junit.jupiter.api.Test;

/** The simulated drive latches its peaks in every step, which a look at every step proves. */
class PeakLatchTest {

    private static final double RATED_TORQUE = 2.4;
    private static final long POLL = 10_000_000;

    private static DriveDescription latching() {
        DriveDescription plain = InventedDrives.direct();
        Map<String, SignalSpec> map = new LinkedHashMap<>(plain.signals());
        map.put(
                "peakTorque",
                InventedDrives.readOnly(InventedDrives.value(
                        "peakTorque", RegisterTable.INPUT, 90, ValueType.UINT16, 1, Unit.PER_MILLE)));
        map.put(
                "peakFollowingError",
                InventedDrives.readOnly(InventedDrives.value(
                        "peakFollowingError", RegisterTable.INPUT, 91, ValueType.UINT32, 1, Unit.COUNT)));
        map.put(
                "peakReset",
                InventedDrives.value("peakReset", RegisterTable.HOLDING, 140, ValueType.UINT16, 1, Unit.ONE));
        return new DriveDescription(
                        "latching",
                        plain.style(),
                        map,
                        plain.statusBits(),
                        plain.commands(),
                        plain.identity(),
                        plain.parameters(),
                        plain.maxReadRegisters(),
                        plain.maxConnections(),
                        Optional.empty())
                .withClearPeaks(new DriveDescription.ClearPeaks(Objects.requireNonNull(map.get("peakReset")), 1));
    }

    private final Bench bench = new Bench(latching(), InventedDrives.axis()).enabledDirect();

    /** A motion polled every 10 ms, with what the drive latched, beside the true peaks of every step. */
    private record Watched(Trace trace, double torque, double error) {}

    private Watched move(int counts, int milliseconds) {
        double torqueBefore = cleared("peakTorque");
        double errorBefore = bench.read("peakFollowingError");
        TraceRecorder recorder = new TraceRecorder(
                List.of(new Channel("torque", Unit.PERCENT, 0.1), new Channel("followingError", Unit.COUNT, 1)), POLL);
        double torque = 0;
        double error = 0;
        bench.write("relativeMove", counts);
        long start = bench.drive.nanos();
        recorder.origin(start);
        while (bench.drive.nanos() <= start + milliseconds * 1_000_000L) {
            if ((bench.drive.nanos() - start) % POLL == 0) {
                recorder.add(bench.drive.nanos(), bench.drive.nanos(), new double[] {
                    bench.read("torque") / 10, bench.read("followingError")
                });
            }
            torque = Math.max(torque, Math.abs(bench.drive.torque()));
            error = Math.max(error, Math.abs(bench.read("followingError")));
            bench.drive.advanceTo(bench.drive.nanos() + bench.drive.stepNanos());
        }
        torque = Math.max(torque, Math.abs(bench.drive.torque()));
        error = Math.max(error, Math.abs(bench.read("followingError")));
        Trace trace = recorder.trace()
                .withLatched(List.of(
                        new LatchedPeak(
                                new Channel("torque", Unit.PERCENT, 0.1),
                                torqueBefore / 10,
                                bench.read("peakTorque") / 10),
                        new LatchedPeak(
                                new Channel("followingError", Unit.COUNT, 1),
                                errorBefore,
                                bench.read("peakFollowingError"))));
        return new Watched(trace, 100 * torque / RATED_TORQUE, error);
    }

    private double cleared(String latch) {
        assertThat(bench.write("peakReset", 1)).isEqualTo(Bench.OK);
        return bench.read(latch);
    }

    @Test
    void theIntervalOfALatchedPeakHoldsTheTrueOneOverRandomMoves() {
        RandomGenerator random = new java.util.Random(20261127);
        int missed = 0;
        int held = 0;
        for (int i = 0; i < 40; i++) {
            bench.write("profileSpeed", 200 + random.nextInt(1500));
            bench.write("profileAcceleration", 3000 + random.nextInt(60_000));
            int counts = (random.nextBoolean() ? 1 : -1) * (500 + random.nextInt(15_000));
            Watched watched = move(counts, 400 + random.nextInt(7));
            Measurement torque = Torque.peak(watched.trace(), "torque");
            Measurement error = FollowingError.peak(watched.trace(), "followingError");

            assertThat(torque.source()).isEqualTo(Source.LATCHED);
            assertThat(torque.reservation()).isEmpty();
            assertThat(error.reservation()).isEmpty();
            // A register shows the nearest step, so that none is off by more than half of one.
            double off = Math.abs(torque.value() - watched.torque());
            assertThat(off).isLessThanOrEqualTo(torque.resolution() / 2 + 1e-9);
            held += off <= torque.expandedUncertainty() ? 1 : 0;
            assertThat(error.value()).isEqualTo(watched.error());
            double sampled = 0;
            for (double value : watched.trace().values("torque")) {
                sampled = Math.max(sampled, Math.abs(value));
            }
            missed += torque.value() - sampled > 1 ? 1 : 0;
        }
        // The peak of the torque is short, so that polling must have missed some by more than 1 %.
        assertThat(missed).isPositive();
        // 38 are expected of 40; by chance fewer than 34 come once in fifty thousand times.
        assertThat(held).isGreaterThanOrEqualTo(34);
    }

    @Test
    void aJerkBetweenTwoLooksIsSeenByTheLatchAlone() {
        bench.write("profileSpeed", 1500);
        bench.write("profileAcceleration", 60_000);
        cleared("peakTorque");
        double before = Math.abs(bench.read("torque"));
        bench.write("relativeMove", 300);
        bench.pass(250);
        double sampled = Math.max(before, Math.abs(bench.read("torque"))) / 10;

        assertThat(sampled).isLessThan(5);
        assertThat(bench.read("peakTorque") / 10).isGreaterThan(10 * sampled);
        assertThat(bench.read("peakFollowingError")).isGreaterThan(Math.abs(bench.read("followingError")));
    }

    @Test
    void whatIsThereWhenItIsClearedIsTheFirstThatItSees() {
        move(8000, 400);
        double before = bench.read("peakTorque");

        assertThat(cleared("peakTorque")).isLessThan(before / 2);
        assertThat(bench.read("peakFollowingError")).isEqualTo(Math.abs(bench.read("followingError")));
    }

    @Test
    void onlyTheDeclaredValueClears() {
        move(8000, 400);
        double before = bench.read("peakTorque");

        assertThat(bench.write("peakReset", 2)).isEqualTo(RegisterServer.SERVER_DEVICE_FAILURE);
        assertThat(bench.read("peakTorque")).isEqualTo(before);
    }
}
