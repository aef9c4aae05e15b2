package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import org.axtrial.plant.PlantDetails;
import org.junit.jupiter.api.Test;

/** Each fault does to the axis what its name says, as seen by the truth behind the registers. */
class MachineFaultTest {

    private static final double REVOLUTION = 2 * Math.PI;

    private static SimulationSpec sound() {
        return InventedDrives.axis().with(InventedDrives.switches());
    }

    private static Bench with(MachineFault... faults) {
        return with(sound(), Duration.ZERO, faults);
    }

    private static Bench with(SimulationSpec spec, Duration after, MachineFault... faults) {
        return new Bench(
                InventedDrives.wholeCia402(),
                spec.withFaults(List.of(faults).stream()
                        .map(fault -> new MachineFault.Onset(fault, after))
                        .toList()));
    }

    /** Moves by so many register counts and waits until it is over. */
    private static void move(Bench bench, double counts) {
        bench.write("profileSpeed", 600);
        bench.write("targetPosition", bench.read("position") + counts);
        bench.write("control", 0x1F);
        bench.pass(3000);
        bench.write("control", 0x0F);
        bench.pass(10);
    }

    @Test
    void aWrongGearGoesTenTimesLessFarThanItsCountsSay() {
        Bench bench = with(new MachineFault.WrongGear(10)).enabledCia402(1);
        move(bench, InventedDrives.COUNTS);
        assertThat(bench.drive.truth().motorAngle()).isCloseTo(REVOLUTION / 10, within(1e-3));
    }

    @Test
    void aWrongSignMeetsTheOtherSwitch() {
        Bench right = with().enabledCia402(1);
        move(right, 6.0 * InventedDrives.COUNTS);
        assertThat(right.read("digitalInputs")).as("positive limit").isEqualTo(2);
        Bench wrong = with(new MachineFault.WrongSign()).enabledCia402(1);
        move(wrong, 6.0 * InventedDrives.COUNTS);
        assertThat(wrong.read("digitalInputs")).as("negative limit").isEqualTo(1);
    }

    @Test
    void aHandThatTurnsForwardsIsCountedBackwardsUnderAWrongSign() {
        Bench wrong = with(new MachineFault.WrongSign());
        wrong.drive.turnByHand(0.25 * REVOLUTION);
        assertThat(wrong.read("position")).isCloseTo(-0.25 * InventedDrives.COUNTS, within(1.0));
    }

    @Test
    void detunedGainsLagOrSwing() {
        SimulationSpec withoutFeedForward = InventedDrives.axis(InventedDrives.loops(50, 0));
        Bench slow = with(withoutFeedForward, Duration.ZERO, new MachineFault.DetunedGains(0.2, 1))
                .enabledCia402(3);
        Bench right = with(withoutFeedForward, Duration.ZERO).enabledCia402(3);
        for (Bench bench : List.of(slow, right)) {
            bench.write("targetSpeed", 60);
            bench.pass(1500);
        }
        // Following error v/Kv: five times as much at a fifth of the gain. Source: type-1 position loop.
        assertThat(slow.read("followingError") / right.read("followingError")).isCloseTo(5, within(0.1));
    }

    @Test
    void aNoisyEncoderScattersByItsStandardDeviation() {
        Bench bench = with(new MachineFault.NoisyEncoder(40));
        double sum = 0;
        double squares = 0;
        int n = 4000;
        for (int i = 0; i < n; i++) {
            bench.pass(1);
            double read = bench.read("position");
            sum += read;
            squares += read * read;
        }
        double deviation = Math.sqrt(squares / n - sum / n * sum / n);
        // Standard error of a standard deviation is s/√(2n); four of them.
        assertThat(deviation).isCloseTo(40, within(4 * 40 / Math.sqrt(2.0 * n)));
    }

    @Test
    void aLooseCouplingSwingsAtItsResonance() {
        Bench bench = with(new MachineFault.LooseCoupling(12)).enabledCia402(1);
        bench.write("profileSpeed", 600);
        bench.write("targetPosition", 2.0 * InventedDrives.COUNTS);
        bench.write("control", 0x1F);
        bench.pass(400);
        double twist = 0;
        for (int i = 0; i < 400; i++) {
            bench.pass(1);
            Truth truth = bench.drive.truth();
            twist = Math.max(twist, Math.abs(truth.motorAngle() - truth.loadAngle()));
        }
        assertThat(Math.toDegrees(twist))
                .as("swing of the load against the motor")
                .isGreaterThan(1);
    }

    @Test
    void playLetsTheLoadStayBehindTheMotor() {
        Bench bench = with(new MachineFault.Backlash(4)).enabledCia402(3);
        double[] ahead = new double[2];
        for (int way = 0; way < 2; way++) {
            bench.write("targetSpeed", way == 0 ? 30 : -30);
            bench.pass(2000);
            ahead[way] = bench.drive.truth().motorAngle() - bench.drive.truth().loadAngle();
        }
        // At constant speed the motor pulls the load by the flank of its direction; the twist adds next to nothing.
        assertThat(Math.toDegrees(ahead[0] - ahead[1])).isCloseTo(4, within(0.3));
    }

    @Test
    void aWornBrakeLetsTheLoadSink() {
        SimulationSpec vertical = InventedDrives.axis(new SimulationSpec.RotaryLoad(0.001, 1, -0.8, 0.001, 0.02));
        Bench held = with(vertical, Duration.ZERO);
        Bench worn = with(vertical, Duration.ZERO, new MachineFault.WornBrake(0.2));
        held.pass(500);
        worn.pass(500);
        assertThat(held.drive.truth().motorAngle()).isZero();
        assertThat(worn.drive.truth().motorAngle()).isLessThan(-0.1);
        assertThat(worn.drive.truth().brakeSlips()).isTrue();
    }

    @Test
    void moreFrictionTakesMoreTorqueFromItsMomentOn() {
        Bench bench = with(sound(), Duration.ofSeconds(2), new MachineFault.MoreFriction(4))
                .enabledCia402(3);
        bench.write("targetSpeed", 30);
        bench.pass(1800);
        double before = bench.read("torque");
        bench.pass(1000);
        double after = bench.read("torque");
        assertThat(after / before).isCloseTo(4, within(0.2));
    }

    @Test
    void theEncoderSlipsEachTimeTheTorquePasses() {
        Bench bench = with(new MachineFault.EncoderSlip(3, 20)).enabledCia402(1);
        bench.write("profileAcceleration", 60_000);
        bench.write("profileDeceleration", 60_000);
        move(bench, InventedDrives.COUNTS);
        double counted = bench.read("position") / InventedDrives.COUNTS * REVOLUTION;
        double slipped = Math.toDegrees(counted - bench.drive.truth().motorAngle());
        assertThat(slipped / 3).as("whole slips").isCloseTo(Math.rint(slipped / 3), within(0.02));
        assertThat(slipped).isGreaterThanOrEqualTo(3 * 0.98);
    }

    @Test
    void aStuckSwitchDoesNotChange() {
        assertThat(with(new MachineFault.StuckSwitch(SwitchInput.POSITIVE_LIMIT, true))
                        .afterAStep())
                .isEqualTo(2 + 4);
        assertThat(with(new MachineFault.StuckSwitch(SwitchInput.HOME, false)).afterAStep())
                .isZero();
        assertThat(with().afterAStep()).as("home switch in the middle").isEqualTo(4);
    }

    @Test
    void aTripComesAtItsTimeEvenToAnAxisAtRest() {
        Bench bench = with(sound(), Duration.ofSeconds(5), new MachineFault.Trip(0x2310));
        bench.pass(4999);
        assertThat(bench.drive.faultCode()).isZero();
        bench.pass(2);
        assertThat(bench.drive.faultCode()).isEqualTo(0x2310);
        assertThat(bench.cia402State()).isEqualTo("fault");
    }

    @Test
    void aLostZeroReadsOtherCountsWithoutMoving() {
        Bench bench = with(sound(), Duration.ofSeconds(1), new MachineFault.LostHome(1234));
        bench.pass(500);
        assertThat(bench.read("position")).isZero();
        bench.pass(600);
        assertThat(bench.read("position")).isEqualTo(1234);
        assertThat(bench.drive.truth().motorAngle()).isZero();
    }

    @Test
    void severalFaultsComeInTheOrderOfTheirTimes() {
        Bench bench = new Bench(
                InventedDrives.wholeCia402(),
                sound().withFaults(List.of(
                        new MachineFault.Onset(new MachineFault.LostHome(7), Duration.ofSeconds(2)),
                        new MachineFault.Onset(new MachineFault.LostHome(5), Duration.ofSeconds(1)))));
        bench.pass(1500);
        assertThat(bench.read("position")).isEqualTo(5);
        bench.pass(1000);
        assertThat(bench.read("position")).isEqualTo(12);
    }

    @Test
    void whatTheAxisCannotHaveIsRefused() {
        assertThatThrownBy(() -> new MachineFault.Onset(new MachineFault.WrongSign(), Duration.ofSeconds(1)))
                .isInstanceOf(IllegalArgumentException.class);
        SimulationSpec weightless = InventedDrives.axis(new SimulationSpec.RotaryLoad(0, 1, 0, 0.001, 0.02))
                .with(PlantDetails.PLAIN);
        assertThatThrownBy(() -> new MachineFault.LooseCoupling(10).in(weightless))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("without inertia");
        assertThatThrownBy(() -> new MachineFault.WrongGear(1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new MachineFault.Trip(0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new MachineFault.WornBrake(1.5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new MachineFault.NoisyEncoder(0)).isInstanceOf(IllegalArgumentException.class);
    }
}
