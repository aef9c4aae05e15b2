package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.plant.BrakeState;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.PlantDetails;
import org.junit.jupiter.api.Test;

/** What the mechanics truly do, beside what the registers of the drive tell. */
class TruthTest {

    private static final double COUNT = 2 * Math.PI / InventedDrives.COUNTS;

    private static SimulationSpec worn() {
        PlantDetails details = PlantDetails.PLAIN.withCoupling(
                Coupling.damped(430, 0.05, 3e-4, 2e-4).withBacklash(0.01));
        // So much friction at the load that it never runs ahead of the flank that pushes it.
        SimulationSpec.Load load = new SimulationSpec.RotaryLoad(2e-4, 1, 0, 1e-3, 0.3);
        return InventedDrives.axis(load).with(details);
    }

    @Test
    void backlashIsSeenAtTheLoadAndNotInTheRegisters() {
        Bench bench = new Bench(InventedDrives.direct(), worn()).enabledDirect();
        bench.write("absoluteMove", 20_000);
        bench.pass(2000);
        double outMotor = bench.drive.truth().motorAngle();
        double outLoad = bench.drive.truth().loadAngle();
        bench.write("absoluteMove", 40_000);
        bench.pass(2000);
        bench.write("absoluteMove", 20_000);
        bench.pass(2000);
        Truth back = bench.drive.truth();
        assertThat(bench.read("position")).isCloseTo(20_000, within(2.0));
        assertThat(back.motorAngle()).isCloseTo(outMotor, within(4 * COUNT));
        // Reversal error: the dead zone of 0.01 rad, and what friction of the load leaves wound, at most 2·T_C/k.
        assertThat(back.loadAngle() - outLoad).isCloseTo(0.01, within(2 * 0.3 / 430 + 4 * COUNT));
    }

    @Test
    void aSlippedEncoderShiftsTheRegistersAndNotTheShaft() {
        Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis());
        bench.pass(100);
        bench.drive.slipEncoder(100 * COUNT);
        bench.pass(1);
        assertThat(bench.read("position")).isEqualTo(100);
        assertThat(bench.drive.truth().motorAngle()).isZero();
    }

    @Test
    void theBrakeOfAHangingLoadIsTold() {
        PlantDetails brake =
                PlantDetails.PLAIN.withBrake(new HoldingBrake(1, Duration.ofMillis(20), Duration.ofMillis(40)));
        SimulationSpec.Load load = new SimulationSpec.LinearLoad(10, 0.010, -100, 1e-3, 0);
        Bench bench =
                new Bench(InventedDrives.direct(), InventedDrives.axis(load).with(brake));
        bench.pass(20);
        assertThat(bench.drive.truth().brake()).isEqualTo(BrakeState.ENGAGED);
        bench.write("command", 1);
        bench.pass(30);
        assertThat(bench.drive.truth().brake()).isEqualTo(BrakeState.RELEASING);
        bench.pass(30);
        assertThat(bench.drive.truth().brake()).isEqualTo(BrakeState.RELEASED);
        bench.write("command", 2);
        bench.pass(100);
        assertThat(bench.drive.truth().brake()).isEqualTo(BrakeState.ENGAGED);
        // It fell while the brake closed: ½·g·t² with J 3e-4 + 2.53e-5 kg·m², 0.159155 N·m, 20 ms (Newton's law, free
        // fall
        // less 1 % for viscous friction and a step).
        double fall = 0.5 * 0.159155 / (3e-4 + 2.53303e-5) * 0.020 * 0.020;
        assertThat(bench.drive.truth().motorAngle()).isBetween(-1.4 * fall, -0.95 * fall);
        assertThat(bench.drive.truth().brakeSlips()).isFalse();
        bench.drive.change(plant -> plant.brakeTorqueFactor(0.1));
        bench.pass(100);
        assertThat(bench.drive.truth().brakeSlips()).isTrue();
    }

    @Test
    void theWindingWarmsWhileTheAxisHoldsAndHowTimeIsCutChangesNothing() {
        // 0.159155 N·m of 2.4 N·m for 240 s, one time constant: (0.0663)²·(1 − 1/e), first-order closed form.
        double expected = Math.pow(0.159155 / 2.4, 2) * 0.632121;
        List<Double> loads = new ArrayList<>();
        for (long slice : new long[] {1000, 240_000}) {
            SimulationSpec.Load load = new SimulationSpec.LinearLoad(10, 0.010, -100, 1e-3, 0.02);
            Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis(load)).enabledDirect();
            for (long time = 0; time < 240_000; time += slice) {
                bench.pass((double) slice);
            }
            loads.add(bench.drive.truth().windingLoad());
        }
        assertThat(loads.get(0)).isEqualTo(loads.get(1)).isCloseTo(expected, within(0.01 * expected));
    }

    // Source: CiA 402 error code 2350h, I²t; time to a load of 1.1 at twice the rated torque is τ·ln(4/(4 − 1.1)), the
    // first-order closed form.
    @Test
    void aWindingThatGetsTooHotTripsTheDriveAtTheTimeOfTheClosedForm() {
        Duration time = Duration.ofSeconds(4);
        SimulationSpec spec = InventedDrives.axis(new SimulationSpec.RotaryLoad(0.001, 1, 0, 0, 100))
                .with(PlantDetails.PLAIN.withThermalTime(time));
        Bench bench = new Bench(InventedDrives.wholeCia402(), spec).enabledCia402(4);
        bench.write("torqueSlope", 1_000_000);
        bench.write("targetTorque", 2000);
        double expected = 4 * Math.log(4 / (4 - 1.1));
        bench.pass(1000 * expected - 30);
        assertThat(bench.drive.faultCode()).isZero();
        bench.pass(60);
        assertThat(bench.drive.faultCode()).isEqualTo(0x2350);
        assertThat(bench.cia402State()).isEqualTo("fault");
    }

    @Test
    void anAxisWithEncoderNoiseGivesTheSameBitsHoweverTimeIsCut() {
        List<List<Double>> ends = new ArrayList<>();
        for (double slice : new double[] {0.7, 250}) {
            Bench bench = new Bench(InventedDrives.direct(), SimulatorBench.full()).enabledDirect();
            bench.write("relativeMove", 100_000);
            double end = bench.drive.nanos() / 1e6 + 3000;
            while (bench.drive.nanos() / 1e6 + slice < end) {
                bench.pass(slice);
            }
            bench.pass(end - bench.drive.nanos() / 1e6);
            Truth truth = bench.drive.truth();
            ends.add(List.of(truth.motorAngle(), truth.loadAngle(), truth.motorTorque(), bench.read("position")));
        }
        assertThat(ends.get(0)).isEqualTo(ends.get(1));
    }
}
