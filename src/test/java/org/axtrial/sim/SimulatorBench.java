package org.axtrial.sim;

import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.Optional;
import org.axtrial.plant.Cogging;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.Friction;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.PlantDetails;
import org.axtrial.plant.Stribeck;

/**
 * Prints how many seconds of one moving axis a second of processor time simulates, with the full model of the mechanics
 * and with the rigid one, both in one run and in turn. Not a test: speed depends on the machine.
 */
final class SimulatorBench {

    private static final int ROUNDS = 8;
    private static final long SECONDS = 1000;
    private static final double STIFFNESS = 430;

    private SimulatorBench() {}

    /** Runs the comparison; takes about half a minute. */
    public static void main(String[] arguments) {
        System.out.println("one axis moving to and fro, register server beside it, one thread");
        System.out.println("round   rigid × real time (ns/step)   full × real time (ns/step)");
        for (int round = 1; round <= ROUNDS; round++) {
            double rigid = speed(InventedDrives.axis());
            double full = speed(full());
            System.out.printf("%5d %12.0f (%4.1f) %22.0f (%4.1f)%n", round, rigid, nanos(rigid), full, nanos(full));
        }
    }

    /** Compliance at 300 Hz, backlash of 2 arcmin, Stribeck, cogging, brake, I²t and encoder noise. */
    static SimulationSpec full() {
        SimulationSpec axis = InventedDrives.axis();
        PlantDetails details = PlantDetails.PLAIN
                .withMotorFriction(new Friction(2e-4, 0.01, Optional.of(new Stribeck(0.015, 3))))
                .withStribeck(new Stribeck(0.08, 2))
                .withCoupling(Coupling.damped(STIFFNESS, 0.03, 3e-4, 2e-4).withBacklash(Math.toRadians(2 / 60.0)))
                .withCogging(new Cogging(0.02, 24))
                .withBrake(new HoldingBrake(3, Duration.ofMillis(20), Duration.ofMillis(40)));
        return axis.with(details).with(axis.feedback().withNoise(0.5));
    }

    /** Processor time of this thread, which other programs on the machine hardly change. */
    private static long cpuNanos() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static double nanos(double timesRealTime) {
        return 125_000 / timesRealTime;
    }

    private static double speed(SimulationSpec spec) {
        Bench bench = new Bench(InventedDrives.direct(), spec).enabledDirect();
        bench.pass(100);
        long began = cpuNanos();
        for (int i = 0; i < SECONDS; i++) {
            bench.write("speedCommand", i % 2 == 0 ? 1500 : -1500);
            bench.pass(1000);
        }
        double busy = (cpuNanos() - began) * 1e-9;
        if (Math.abs(bench.drive.shaftSpeed()) < 150 || bench.drive.faultCode() != 0) {
            throw new IllegalStateException("the axis did not move as told");
        }
        return SECONDS / busy;
    }
}
