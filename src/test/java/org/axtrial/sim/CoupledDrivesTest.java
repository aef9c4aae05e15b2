package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.axtrial.plant.Energy;
import org.axtrial.plant.GantryBeam;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.LoadCoupling;
import org.axtrial.plant.LoadTransfer;
import org.axtrial.plant.LoadTransfer.AtPlace;
import org.axtrial.plant.PlantDetails;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Two drives on screws of 10 mm lead whose loads are coupled. */
@Timeout(60)
class CoupledDrivesTest {

    private static final double LEAD = 0.010;
    private static final double PER_RADIAN = LEAD / (2 * Math.PI);
    private static final double STIFFNESS = 2e6;
    private static final double G = 9.80665;
    private static final GantryBeam BEAM = new GantryBeam(STIFFNESS, 4000);

    private static SimulationSpec axis(double positionGain, double feedForward, double coulomb) {
        return InventedDrives.axis(new SimulationSpec.LinearLoad(40, LEAD, 0, 1e-3, coulomb))
                .with(InventedDrives.loops(positionGain, feedForward));
    }

    private static SimulationSpec axis() {
        return axis(50, 1, 0.05);
    }

    private static final class Pair {
        final Bench left;
        final Bench right;
        final CoupledDrives coupled;

        Pair(SimulationSpec left, SimulationSpec right, LoadCoupling coupling) {
            this(InventedDrives.direct(), left, right, coupling);
        }

        Pair(DriveDescription type, SimulationSpec left, SimulationSpec right, LoadCoupling coupling) {
            this.left = new Bench(type, left);
            this.right = new Bench(type, right);
            this.coupled = CoupledDrives.join(List.of(new CoupledDrives.Joint(
                    coupling,
                    new CoupledDrives.Side(this.left.drive, 1),
                    new CoupledDrives.Side(this.right.drive, 1))));
        }

        void both(Consumer<Bench> order) {
            order.accept(left);
            order.accept(right);
        }

        Pair enabled() {
            left.pass(20);
            both(bench -> bench.write("command", 1));
            left.pass(20);
            return this;
        }

        void order(double speed, double acceleration) {
            both(bench -> {
                bench.write("profileSpeed", speed);
                bench.write("profileAcceleration", acceleration);
            });
        }

        Energy energy(Bench bench) {
            List<Energy> seen = new ArrayList<>();
            bench.drive.change(plant -> seen.add(plant.energy()));
            return seen.get(0);
        }
    }

    @Test
    void aPairOfEqualDrivesHasNoSkew() {
        Pair pair = new Pair(axis(), axis(), BEAM).enabled();
        pair.order(600, 6000);
        pair.both(bench -> bench.write("relativeMove", 5 * InventedDrives.COUNTS));
        for (int i = 0; i < 2000; i++) {
            pair.left.pass(1);
            assertThat(pair.coupled.skew(0)).isZero();
        }
        assertThat(pair.left.drive.shaftAngle()).isCloseTo(10 * Math.PI, within(1e-2));
    }

    /** Hooke's law: the left drive gives a torque, the right one holds its place; skew = T·2π/L/k. */
    @Test
    void aTorqueOnOneSideMakesASkewOfForceOverStiffness() {
        Pair pair = new Pair(InventedDrives.wholeCia402(), axis(50, 1, 0), axis(50, 1, 0), BEAM);
        pair.right.enabledCia402(1);
        pair.left.enabledCia402(4);
        pair.left.write("torqueSlope", 1000);
        pair.left.write("targetTorque", 250);
        pair.left.pass(4000);
        double force = 0.250 * 2.4 / PER_RADIAN;
        double count = LEAD / InventedDrives.COUNTS;
        assertThat(pair.coupled.force(0)).isCloseTo(force, within(force * 1e-3));
        assertThat(pair.coupled.skew(0)).isCloseTo(force / STIFFNESS, within(force / STIFFNESS * 1e-3));
        // The drive that holds takes the force on itself: Newton's third law.
        assertThat(pair.right.drive.torque()).isCloseTo(-0.250 * 2.4, within(1e-2));
        assertThat(pair.right.drive.truth().loadAngle() * PER_RADIAN).isCloseTo(0, within(2 * count));
    }

    /**
     * A position loop without feed-forward follows v/Kv behind (Groß, Hamann, Wiegärtner, Elektrische Vorschubantriebe, from
     * memory), whatever force the integral part of its speed loop has to give; the beam is bent by the difference.
     */
    @ParameterizedTest
    @CsvSource({"50, 40", "50, 45", "30, 50"})
    void aDetunedDriveBendsTheBeamByTheDifferenceOfTheFollowingErrors(double leftGain, double rightGain) {
        Pair pair = new Pair(axis(leftGain, 0, 0.05), axis(rightGain, 0, 0.05), BEAM).enabled();
        pair.order(60, 300);
        pair.both(bench -> bench.write("speedCommand", 60));
        pair.left.pass(3000);
        double skew = 0.010 * (1 / rightGain - 1 / leftGain);
        double count = LEAD / InventedDrives.COUNTS;
        assertThat(pair.coupled.skew(0)).isCloseTo(skew, within(2 * count));
        double torque = STIFFNESS * skew * PER_RADIAN;
        double friction = 0.05 + 1e-3 * 2 * Math.PI;
        assertThat(pair.left.drive.torque()).isCloseTo(friction + torque, within(0.02));
        assertThat(pair.right.drive.torque()).isCloseTo(friction - torque, within(0.02));
    }

    /** Screw: T = m·g·L/2π. Source: any handbook of drive sizing, from memory. */
    @Test
    void theHoldingTorqueOfTheReceivingAxisGrowsByTheWeight() {
        SimulationSpec vertical =
                axis(50, 1, 0).with(PlantDetails.PLAIN.withBrake(new HoldingBrake(5, Duration.ZERO, Duration.ZERO)));
        Pair pair = new Pair(axis(), vertical, new LoadTransfer(15, 0, -15 * G, new AtPlace(0.02))).enabled();
        pair.order(600, 6000);
        assertThat(pair.right.drive.torque()).isCloseTo(0, within(1e-6));
        pair.left.write("relativeMove", 3 * InventedDrives.COUNTS);
        pair.left.pass(200);
        assertThat(pair.coupled.handedOver()).isZero();
        pair.left.pass(2000);
        assertThat(pair.coupled.handedOver()).isEqualTo(1);
        assertThat(pair.right.drive.torque()).isCloseTo(15 * G * PER_RADIAN, within(1e-3));
        assertThat(pair.right.drive.truth().loadAngle()).isCloseTo(0, within(1e-3));
    }

    private static void busyTime(Pair pair, boolean leftFirst, int slices) {
        Bench asker = leftFirst ? pair.left : pair.right;
        advance(asker, 20, slices);
        pair.order(600, 6000);
        pair.both(bench -> bench.write("command", 1));
        advance(asker, 50, slices);
        pair.left.write("relativeMove", 3 * InventedDrives.COUNTS);
        advance(asker, 600, slices);
        pair.right.write("relativeMove", 2 * InventedDrives.COUNTS);
        advance(asker, 900, slices);
        pair.left.write("command", 2);
        advance(asker, 5000, slices);
    }

    private static void advance(Bench bench, int milliseconds, int slices) {
        for (int i = 0; i < slices; i++) {
            bench.pass((double) milliseconds / slices);
        }
    }

    private static List<Object> state(Pair pair) {
        return List.of(
                pair.left.drive.truth(),
                pair.right.drive.truth(),
                pair.energy(pair.left),
                pair.energy(pair.right),
                pair.coupled.skew(0),
                pair.coupled.force(0),
                pair.coupled.dissipated());
    }

    private static Pair mixed() {
        SimulationSpec fast = axis().with(new SimulationSpec.Loops(
                2000, 400, 50, 1, 20, Duration.ofMillis(5), 20.0 * InventedDrives.COUNTS));
        return new Pair(axis(), fast, BEAM);
    }

    @Test
    void whoeverAdvancesThePairAndHoweverOftenGivesTheSameBits() {
        Pair first = mixed();
        busyTime(first, true, 1);
        List<Object> expected = state(first);
        assertThat(Math.abs(first.coupled.skew(0))).isPositive();
        for (int slices : new int[] {1, 7, 250}) {
            for (boolean leftFirst : new boolean[] {true, false}) {
                Pair other = mixed();
                busyTime(other, leftFirst, slices);
                assertThat(state(other)).isEqualTo(expected);
                assertThat(other.left.drive.nanos()).isEqualTo(other.right.drive.nanos());
            }
        }
    }

    @Test
    void steppingAtRestChangesNothingButTheLastBitsOfTheWinding() {
        Pair rested = mixed();
        Pair stepped = mixed();
        stepped.left.drive.stepAtRest();
        busyTime(rested, true, 1);
        busyTime(stepped, true, 1);
        assertThat(rested.left.drive.truth().loadAngle())
                .isEqualTo(stepped.left.drive.truth().loadAngle());
        assertThat(rested.right.drive.truth().loadAngle())
                .isEqualTo(stepped.right.drive.truth().loadAngle());
        assertThat(rested.coupled.force(0)).isEqualTo(stepped.coupled.force(0));
        assertThat(rested.right.drive.truth().windingLoad())
                .isCloseTo(stepped.right.drive.truth().windingLoad(), within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void thePairKeepsItsEnergyWithinAThousandth(boolean differentSteps) {
        Pair pair = differentSteps ? mixed() : new Pair(axis(), axis(), BEAM);
        busyTime(pair, true, 1);
        double in = 0;
        double lost = pair.coupled.dissipated();
        double stored = pair.coupled.elastic();
        for (Bench bench : List.of(pair.left, pair.right)) {
            Energy energy = pair.energy(bench);
            in += energy.motorWork();
            lost += energy.dissipated();
            stored += energy.kinetic() + energy.potential() + energy.elastic();
        }
        assertThat(lost).isGreaterThan(1);
        assertThat(Math.abs(in - lost - stored) / lost).isLessThan(1e-3);
    }

    @Test
    void aFaultStrikesAtItsTimeAlsoWhileThePairRests() {
        SimulationSpec worn = axis().withFaults(
                        List.of(new MachineFault.Onset(new MachineFault.Trip(0x7300), Duration.ofMillis(500))));
        Pair pair = new Pair(axis(), worn, BEAM);
        pair.left.pass(499);
        assertThat(pair.right.drive.faultCode()).isZero();
        pair.left.pass(2);
        assertThat(pair.right.drive.faultCode()).isEqualTo(0x7300);
        assertThat(pair.left.drive.faultCode()).isZero();
    }

    @Test
    void aDriveWithoutSupplyIsDraggedAlongAndStartsAgain() {
        Pair pair = new Pair(axis(50, 1, 0.01), axis(50, 1, 0.01), BEAM).enabled();
        pair.right.drive.powerCycle(Duration.ofSeconds(2));
        pair.left.write("profileSpeed", 60);
        pair.left.write("profileAcceleration", 300);
        pair.left.write("relativeMove", InventedDrives.COUNTS / 2);
        pair.left.pass(1500);
        assertThat(pair.right.drive.supplied()).isFalse();
        assertThat(pair.right.drive.shaftAngle()).isCloseTo(Math.PI, within(0.05));
        pair.left.pass(600);
        assertThat(pair.right.drive.supplied()).isTrue();
        assertThat(pair.right.drive.starts()).isEqualTo(2);
    }

    @Test
    void aMirroredAxisIsStillPulledTheRightWay() {
        SimulationSpec wrong = axis(50, 1, 0.01)
                .withFaults(List.of(new MachineFault.Onset(new MachineFault.WrongSign(), Duration.ZERO)));
        Pair pair = new Pair(axis(), wrong, BEAM);
        pair.left.enabledDirect();
        pair.left.write("profileSpeed", 60);
        pair.left.write("profileAcceleration", 300);
        pair.left.write("relativeMove", InventedDrives.COUNTS / 2);
        pair.left.pass(2000);
        assertThat(pair.right.drive.shaftAngle()).isCloseTo(-Math.PI, within(0.05));
    }

    @Test
    void theServedPairIsSteppedTogether() {
        VirtualTime time = new VirtualTime(Instant.EPOCH);
        Pair pair = new Pair(axis(), axis(), BEAM);
        ServedDrive left = new ServedDrive(pair.left.drive, time);
        time.advance(250_000);
        ServedDrive right = new ServedDrive(pair.right.drive, time);
        time.advance(5_000_000);
        right.advance();
        assertThat(pair.left.drive.nanos()).isEqualTo(pair.right.drive.nanos());
        left.advance();
        assertThat(pair.left.drive.nanos()).isEqualTo(5_250_000);
        assertThat(pair.right.drive.nanos()).isEqualTo(5_250_000);
        assertThat(left.lag().overruns()).isZero();
    }

    @Test
    void threadsThatAdvanceEitherDriveDoNotWaitForEachOther() throws InterruptedException {
        Pair pair = new Pair(axis(), axis(), BEAM);
        List<Thread> threads = new ArrayList<>();
        for (Bench bench : List.of(pair.left, pair.right, pair.left, pair.right)) {
            threads.add(new Thread(() -> {
                for (int i = 1; i <= 2000; i++) {
                    bench.drive.advanceTo(i * 1_000_000L);
                    bench.drive.truth();
                    bench.drive.change(plant -> plant.frictionFactor(1));
                    pair.coupled.skew(0);
                }
            }));
        }
        threads.forEach(Thread::start);
        for (Thread thread : threads) {
            thread.join();
        }
        assertThat(pair.left.drive.nanos()).isEqualTo(2_000_000_000L);
        assertThat(pair.right.drive.nanos()).isEqualTo(2_000_000_000L);
    }

    @Test
    void aDriveIsCoupledOnceAndBeforeItRuns() {
        Pair pair = new Pair(axis(), axis(), BEAM);
        assertThat(pair.left.drive.coupled()).isEqualTo(Optional.of(pair.coupled));
        SimulatedDrive late = new SimulatedDrive("late", InventedDrives.direct(), axis());
        SimulatedDrive fresh = new SimulatedDrive("fresh", InventedDrives.direct(), axis());
        assertThat(fresh.coupled()).isEmpty();
        late.advanceTo(1_000_000);
        assertThatThrownBy(() -> join(pair.left.drive, fresh))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("bench is coupled already");
        assertThatThrownBy(() -> join(fresh, late)).hasMessageContaining("late has run");
        assertThatThrownBy(() -> CoupledDrives.join(List.of())).hasMessageContaining("nothing to couple");
        assertThatThrownBy(() -> new CoupledDrives.Side(fresh, 0)).hasMessageContaining("1 or -1");
    }

    private static CoupledDrives join(SimulatedDrive one, SimulatedDrive other) {
        return CoupledDrives.join(List.of(
                new CoupledDrives.Joint(BEAM, new CoupledDrives.Side(one, 1), new CoupledDrives.Side(other, 1))));
    }
}
