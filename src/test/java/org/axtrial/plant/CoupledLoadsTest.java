package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.DoubleSupplier;
import org.axtrial.plant.CoupledLoads.Joint;
import org.axtrial.plant.LoadTransfer.AfterTime;
import org.axtrial.plant.LoadTransfer.AtPlace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Two axes on screws of 10 mm and 5 mm lead, the second turning the other way, joined by a beam or a load. */
class CoupledLoadsTest {

    private static final double STEP = 125e-6;
    private static final double G = 9.80665;
    private static final double FIRST = 0.010 / (2 * Math.PI);
    private static final double SECOND = -0.005 / (2 * Math.PI);
    private static final double ROTOR = 1e-4;

    private static PlantSpec spec(double mass, double perRadian) {
        return PlantSpec.rigid(ROTOR, mass * perRadian * perRadian, Friction.NONE, 0, 2.4);
    }

    private static PlantSpec elastic(PlantSpec rigid, double stiffness) {
        return rigid.with(PlantDetails.PLAIN.withCoupling(
                Coupling.damped(stiffness, 0.02, rigid.motorInertia(), rigid.loadInertia())));
    }

    /** Both axes and what couples them, stepped as a simulation would. */
    private static final class Pair {
        final Plant first;
        final Plant second;
        final CoupledLoads loads;
        double firstTorque;
        double secondTorque;

        Pair(PlantSpec first, PlantSpec second, LoadCoupling coupling) {
            this.first = new Plant(first, STEP);
            this.second = new Plant(second, STEP);
            this.loads = new CoupledLoads(
                    List.of(new Joint(coupling, new LoadSide(this.first, FIRST), new LoadSide(this.second, SECOND))),
                    STEP);
        }

        void pass(double seconds) {
            for (long i = Math.round(seconds / STEP); i > 0; i--) {
                loads.push();
                first.step(firstTorque, false);
                second.step(secondTorque, false);
                loads.passed();
            }
        }

        double v1() {
            return first.loadSpeed() * FIRST;
        }

        double v2() {
            return second.loadSpeed() * SECOND;
        }

        double m1() {
            return first.inertiaAtLoad() / (FIRST * FIRST);
        }

        double m2() {
            return second.inertiaAtLoad() / (SECOND * SECOND);
        }

        double momentum() {
            return m1() * v1() + m2() * v2();
        }

        /** Work of the motors less all that is stored or was dissipated; what one axis gave the other cancels. */
        double imbalance() {
            Energy one = first.energy();
            Energy two = second.energy();
            return one.motorWork() + two.motorWork() - stored(one) - stored(two) - loads.elastic() - loads.dissipated();
        }

        private static double stored(Energy energy) {
            return energy.kinetic() + energy.potential() + energy.elastic() + energy.dissipated();
        }
    }

    private static Pair bare(double stiffness, double damping) {
        return new Pair(spec(40, FIRST), spec(25, SECOND), new GantryBeam(stiffness, damping));
    }

    /** Mean period between rising zero crossings of a swing. */
    private static double frequency(Pair pair, double seconds, DoubleSupplier swing) {
        double before = swing.getAsDouble();
        double firstCrossing = Double.NaN;
        double lastCrossing = Double.NaN;
        int periods = -1;
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            pair.pass(STEP);
            double now = swing.getAsDouble();
            if (before < 0 && now >= 0) {
                lastCrossing = i + before / (before - now);
                firstCrossing = periods < 0 ? lastCrossing : firstCrossing;
                periods++;
            }
            before = now;
        }
        return periods / ((lastCrossing - firstCrossing) * STEP);
    }

    /** Two masses on a spring: Ω = √(k·(1/m1 + 1/m2)). Any text on vibrations, from memory. */
    @ParameterizedTest
    @ValueSource(doubles = {2e5, 2e6, 2e7})
    void theBeamSwingsAsTwoMassesOnASpring(double stiffness) {
        Pair pair = bare(stiffness, 0);
        pair.firstTorque = 1;
        pair.pass(0.01);
        pair.firstTorque = 0;
        double omega = Math.sqrt(stiffness * (1 / pair.m1() + 1 / pair.m2()));
        double measured = frequency(pair, 3, () -> pair.v1() - pair.v2());
        double finite = omega * STEP * omega * STEP / 24; // a leapfrog is too fast by that share
        assertThat(2 * Math.PI * measured / omega - 1).isCloseTo(finite, within(2e-5));
    }

    @Test
    void momentumIsKeptToRoundingAndTheSwingNeitherGrowsNorFades() {
        Pair pair = bare(2e7, 0);
        pair.firstTorque = 1;
        pair.pass(0.05);
        pair.firstTorque = 0;
        // Newton's second law: momentum is force times time. Force of a motor is torque over travel in one rad.
        assertThat(pair.momentum()).isCloseTo(1 / FIRST * 0.05, within(1e-9));
        double energy = pair.first.energy().motorWork();
        for (int i = 0; i < 100; i++) {
            pair.pass(0.6);
            assertThat(pair.momentum()).isCloseTo(1 / FIRST * 0.05, within(1e-7));
            assertThat(Math.abs(pair.imbalance()) / energy).isLessThan(1e-3);
        }
    }

    private static void drive(Pair pair) {
        for (int i = 0; i < 20; i++) {
            pair.firstTorque = i % 2 == 0 ? 1.5 : -1.4;
            pair.secondTorque = i % 3 == 0 ? 0.8 : -0.5;
            pair.pass(0.13);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 0.8})
    void rigidAxesKeepTheirEnergyWithinAThousandth(double efficiency) {
        PlantDetails lossy = PlantDetails.PLAIN
                .withEfficiency(new Efficiency(efficiency, efficiency))
                .withStribeck(new Stribeck(0.09, 2));
        Friction friction = Friction.of(1e-3, 0.06);
        PlantSpec one = new PlantSpec(ROTOR, 40 * FIRST * FIRST, friction, -0.2, 2.4, lossy);
        PlantSpec two = new PlantSpec(ROTOR, 25 * SECOND * SECOND, friction, 0.1, 2.4, lossy);
        Pair pair = new Pair(one, two, new GantryBeam(1e6, 400));
        drive(pair);
        double lost = pair.first.energy().dissipated() + pair.second.energy().dissipated() + pair.loads.dissipated();
        assertThat(lost).isGreaterThan(20);
        assertThat(pair.loads.dissipated()).isPositive();
        assertThat(Math.abs(pair.imbalance()) / lost).isLessThan(1e-3);
    }

    @Test
    void elasticAxesKeepTheirEnergyWithinAThousandth() {
        Pair pair = new Pair(elastic(spec(40, FIRST), 300), elastic(spec(25, SECOND), 150), new GantryBeam(1e6, 400));
        drive(pair);
        double lost = pair.first.energy().dissipated() + pair.second.energy().dissipated() + pair.loads.dissipated();
        assertThat(lost).isPositive();
        assertThat(Math.abs(pair.imbalance()) / lost).isLessThan(1e-3);
    }

    /** A force on one of two free masses: the spring carries what the other mass needs, m2·F/(m1 + m2). */
    @Test
    void aForceOnOneSideIsSharedByMass() {
        Pair pair = bare(2e6, 2e4);
        pair.firstTorque = 0.5;
        pair.pass(2);
        double force = 0.5 / FIRST;
        double carried = force * pair.m2() / (pair.m1() + pair.m2());
        assertThat(pair.loads.force(0)).isCloseTo(carried, within(1e-6 * carried));
        assertThat(pair.loads.skew(0)).isCloseTo(carried / 2e6, within(1e-6 * carried / 2e6));
        assertThat(pair.v1()).isCloseTo(pair.v2(), within(1e-9));
    }

    /** Hooke's law: the second axis is held by friction, the first leans on the beam. */
    @Test
    void aHeldAxisMakesASkewOfForceOverStiffness() {
        PlantSpec held = PlantSpec.rigid(ROTOR, 25 * SECOND * SECOND, Friction.of(0, 2), 0, 2.4);
        Pair pair = new Pair(spec(40, FIRST), held, new GantryBeam(1e6, 2e4));
        pair.firstTorque = 0.7;
        pair.pass(3);
        assertThat(pair.second.loadAngle()).isZero();
        double skew = 0.7 / FIRST / 1e6;
        assertThat(pair.loads.skew(0)).isCloseTo(skew, within(1e-9 * skew));
    }

    @Test
    void aBeamThatIsSkewedAtTheStartPullsAtOnce() {
        Pair pair = new Pair(spec(40, FIRST), spec(25, SECOND), new GantryBeam(1e6, 0, 0.001));
        pair.pass(STEP);
        assertThat(pair.loads.force(0)).isCloseTo(1000, within(1e-9));
        // Newton: −1000 N on the first load for one step.
        assertThat(pair.v1()).isCloseTo(-1000 * STEP / pair.m1(), within(1e-15));
        assertThat(pair.v2()).isCloseTo(1000 * STEP / pair.m2(), within(1e-15));
    }

    /** Inelastic blow: m2·v2 + m·v = (m2 + m)·v', lost ½·m2·m/(m2 + m)·(v2 − v)². */
    @Test
    void theReceivingAxisTakesOverTheMomentum() {
        Pair pair = new Pair(spec(40, FIRST), spec(25, SECOND), new LoadTransfer(15, 0, 0, new AfterTime(0.2)));
        pair.firstTorque = 0.6;
        pair.secondTorque = 0.1;
        double whole = pair.m1();
        pair.pass(0.2 - STEP);
        double v1 = pair.v1();
        double v2 = pair.v2();
        assertThat(pair.loads.handedOver()).isZero();
        // Both drift on for one step under their torques before the load changes hands.
        double atHandOver1 = v1 + 0.6 / FIRST / pair.m1() * STEP;
        double atHandOver2 = v2 + 0.1 / SECOND / pair.m2() * STEP;
        double own = pair.m2();
        pair.pass(STEP);
        assertThat(pair.loads.handedOver()).isEqualTo(1);
        assertThat(pair.m1()).isCloseTo(whole - 15, within(1e-9));
        assertThat(pair.m2()).isCloseTo(own + 15, within(1e-9));
        assertThat(pair.v1()).isCloseTo(atHandOver1, within(1e-12));
        assertThat(pair.v2()).isCloseTo((own * atHandOver2 + 15 * atHandOver1) / (own + 15), within(1e-12));
        double lost = 0.5 * own * 15 / (own + 15) * (atHandOver2 - atHandOver1) * (atHandOver2 - atHandOver1);
        assertThat(pair.second.energy().dissipated()).isCloseTo(lost, within(1e-9 * lost));
        pair.pass(0.1);
        assertThat(pair.first.energy().imbalance()).isCloseTo(0, within(1e-9));
        assertThat(pair.second.energy().imbalance()).isCloseTo(0, within(1e-9));
    }

    @Test
    void behindAnElasticTrainTheBlowMeetsTheLoadAlone() {
        Pair pair = new Pair(
                spec(40, FIRST), elastic(spec(25, SECOND), 10), new LoadTransfer(15, 0, 0, new AfterTime(0.2)));
        pair.firstTorque = 0.6;
        pair.pass(0.2);
        double v = pair.v1();
        assertThat(pair.v2()).isCloseTo(15 * v / (25 + 15), within(1e-12));
        assertThat(pair.second.motorSpeed()).isZero();
        pair.pass(0.5);
        // Momentum again: the load and the rotor share it in the mean; centre of mass of 40 kg and J/r².
        double rotor = ROTOR / (SECOND * SECOND);
        double common = (40 * pair.v2() + rotor * pair.second.motorSpeed() * SECOND) / (40 + rotor);
        assertThat(common).isCloseTo(15 * v / (40 + rotor), within(1e-9));
        assertThat(Math.abs(pair.second.energy().imbalance()))
                .isLessThan(1e-3 * pair.second.energy().dissipated());
    }

    /** Screw: T = m·g·L/2π. Source: any handbook of drive sizing, from memory. */
    @Test
    void theStaticTorqueOfTheReceivingAxisGrowsByTheWeight() {
        Pair pair = new Pair(spec(40, FIRST), spec(25, SECOND), new LoadTransfer(15, 0, -15 * G, new AtPlace(0.002)));
        assertThat(pair.second.pull()).isZero();
        pair.firstTorque = 0.2;
        while (pair.loads.handedOver() == 0) {
            pair.pass(STEP);
        }
        assertThat(pair.first.loadAngle() * FIRST).isBetween(0.002, 0.0021);
        // Down is negative travel, and the motor of the second axis turns against its travel.
        assertThat(pair.second.pull()).isCloseTo(15 * G * 0.005 / (2 * Math.PI), within(1e-12));
        assertThat(pair.first.pull()).isZero();
    }

    @Test
    void aCarriedLoadHangsAtRestOnItsTrain() {
        Pair pair = new Pair(
                elastic(spec(40, FIRST), 300), spec(25, SECOND), new LoadTransfer(15, -15 * G, 0, new AfterTime(1)));
        double torque = 15 * G * FIRST;
        pair.firstTorque = torque;
        pair.pass(0.5);
        assertThat(pair.first.motorAngle()).isCloseTo(0, within(1e-9));
        assertThat(pair.first.loadAngle()).isCloseTo(-torque / 300, within(1e-9));
    }

    @Test
    void whatCannotBeSimulatedIsRefused() {
        assertThatThrownBy(() -> bare(1e9, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("at most 318 Hz can be simulated; lower the stiffness");
        assertThatThrownBy(() -> bare(1e5, 1e6))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("damping of the beam is too strong");
        Plant plant = new Plant(spec(1, FIRST), STEP);
        LoadSide side = new LoadSide(plant, FIRST);
        assertThatThrownBy(() -> new Joint(new GantryBeam(1e5, 0), side, side)).hasMessageContaining("joins two axes");
        plant.carry(1e-5, 0);
        Plant moving = new Plant(spec(1, FIRST), STEP);
        moving.step(1, false);
        assertThatThrownBy(() -> moving.carry(1e-5, 0)).hasMessageContaining("at rest");
        assertThatThrownBy(() -> plant.letGo(2e-5, 0)).hasMessageContaining("cannot let go of");
        assertThatThrownBy(() -> plant.pushLoad(Double.NaN)).hasMessageContaining("finite");
        assertThatThrownBy(() -> new AtPlace(0)).hasMessageContaining("stands at the place");
        assertThatThrownBy(() -> new GantryBeam(0, 0)).hasMessageContaining("stiffness of the beam");
        assertThatThrownBy(() -> new LoadTransfer(-1, 0, 0, new AfterTime(1))).hasMessageContaining("mass");
    }

    @Test
    void coupledPlantsAtRestSettle() {
        Pair pair = bare(1e6, 100);
        pair.pass(0.1);
        assertThat(pair.loads.settled()).isTrue();
        pair.first.turn(0.1);
        assertThat(pair.loads.settled()).isFalse();
    }
}
