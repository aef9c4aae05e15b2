package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class CompliantTrainTest {

    private static final double STEP = 125e-6;
    private static final double MOTOR = 3e-4;
    private static final double LOAD = 2e-4;

    private static Plant plant(double gap, double coulomb, double gravity) {
        PlantDetails details = PlantDetails.PLAIN.withCoupling(
                Coupling.damped(430, 0.1, MOTOR, LOAD).withBacklash(gap));
        return new Plant(new PlantSpec(MOTOR, LOAD, Friction.of(0, coulomb), gravity, 2.4, details), STEP);
    }

    private static void run(Plant plant, double seconds, double torque) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            plant.step(torque, false);
        }
    }

    @Test
    void aLoadThatSticksTwistsTheTrainByTorqueOverStiffness() {
        Plant plant = plant(0, 2, 0);
        run(plant, 1, 0.43);
        // Hooke's law: 0.43/430 = 1 mrad; the load stays, its friction of 2 is more, also when the start swings over.
        assertThat(plant.motorAngle()).isCloseTo(1e-3, within(1e-9));
        assertThat(plant.loadAngle()).isZero();
    }

    @Test
    void lostMotionIsTheDeadZoneAndTheTwistOfBothDirections() {
        PlantDetails details = PlantDetails.PLAIN
                .withMotorFriction(Friction.of(1e-3, 0.005))
                .withCoupling(Coupling.damped(430, 0.1, MOTOR, LOAD).withBacklash(0.01));
        Plant plant = new Plant(new PlantSpec(MOTOR, LOAD, Friction.of(0, 5), 0, 2.4, details), STEP);
        run(plant, 2, 0.3);
        double right = plant.motorAngle();
        run(plant, 2, -0.3);
        double left = plant.motorAngle();
        assertThat(plant.loadAngle()).isZero();
        // Dead zone and 2·T/k, where friction of the motor holds back up to 2·T_C/k.
        assertThat(right - left).isCloseTo(0.01 + 2 * 0.3 / 430, within(2 * 0.005 / 430));
    }

    @Test
    void aHangingLoadRestsOnTheFlankThatGravityPressesFromTheStartOn() {
        Plant plant = plant(0.01, 0.02, 0.2);
        double start = plant.loadAngle();
        for (int i = 0; i < 800; i++) {
            plant.step(0, true);
        }
        // φ = half the dead zone and T/k.
        assertThat(start).isEqualTo(0.005 + 0.2 / 430);
        assertThat(plant.loadAngle()).isCloseTo(start, within(1e-12));
    }

    @Test
    void frictionOfBothMassesStopsTheTrainWithoutChatter() {
        PlantDetails details = PlantDetails.PLAIN
                .withMotorFriction(new Friction(0, 0.02, Optional.of(new Stribeck(0.04, 2))))
                .withStribeck(new Stribeck(0.1, 2))
                .withCoupling(Coupling.damped(430, 0.05, MOTOR, LOAD).withBacklash(0.001));
        Plant plant = new Plant(new PlantSpec(MOTOR, LOAD, Friction.of(1e-3, 0.05), 0, 2.4, details), STEP);
        run(plant, 0.2, 1);
        run(plant, 3, 0);
        double motor = plant.motorAngle();
        double load = plant.loadAngle();
        assertThat(plant.settled()).isTrue();
        run(plant, 1, 0);
        assertThat(plant.motorAngle()).isEqualTo(motor);
        assertThat(plant.loadAngle()).isEqualTo(load);
    }

    @Test
    void aStiffTrainMovesAsARigidOne() {
        PlantDetails stiff = PlantDetails.PLAIN.withCoupling(Coupling.damped(50_000, 0.3, MOTOR, LOAD));
        Plant two = new Plant(new PlantSpec(MOTOR, LOAD, Friction.of(1e-3, 0.05), 0, 2.4, stiff), STEP);
        Plant one = new Plant(PlantSpec.rigid(MOTOR, LOAD, Friction.of(1e-3, 0.05), 0, 2.4), STEP);
        run(two, 0.5, 1);
        run(one, 0.5, 1);
        assertThat(two.motorAngle()).isCloseTo(one.motorAngle(), within(1e-4 * one.motorAngle()));
        assertThat(two.loadSpeed()).isCloseTo(one.loadSpeed(), within(1e-4 * one.loadSpeed()));
    }

    @Test
    void withBacklashAndStopsTheErrorStillFallsWithTheStep() {
        // Contacts inside a step cost the second order; first order is asked here.
        double reference = jolted(STEP / 128);
        double wide = Math.abs(jolted(STEP) - reference);
        double narrow = Math.abs(jolted(STEP / 8) - reference);
        assertThat(narrow).isLessThan(wide / 4);
    }

    private static double jolted(double step) {
        PlantDetails details = PlantDetails.PLAIN
                .withCoupling(Coupling.damped(430, 0.1, MOTOR, LOAD).withBacklash(0.01))
                .withEndStops(new EndStops(-1, 3, 300, 0.4));
        Plant plant = new Plant(new PlantSpec(MOTOR, LOAD, Friction.of(1e-3, 0.05), 0, 2.4, details), step);
        for (long i = 0; i < Math.round(0.12 / step); i++) {
            plant.step(i * step < 0.04 ? 1 : -0.4, false);
        }
        return plant.motorAngle();
    }

    @Test
    void aSofterOrWornCouplingCanBeSetWhileItTurns() {
        Plant plant = plant(0, 2, 0);
        plant.stiffnessFactor(0.5);
        run(plant, 1, 0.43);
        assertThat(plant.motorAngle()).isCloseTo(2e-3, within(1e-9));
        plant.backlash(0.02);
        run(plant, 1, 0.43);
        assertThat(plant.motorAngle()).isCloseTo(0.012, within(1e-6));
    }

    @Test
    void whatCannotBeSimulatedIsRefusedAndChangesNothing() {
        Plant plant = plant(0, 2, 0);
        assertThatThrownBy(() -> plant.stiffnessFactor(1e9))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("Hz is too fast");
        run(plant, 1, 0.43);
        assertThat(plant.motorAngle()).isCloseTo(1e-3, within(1e-9));
        Plant rigid = new Plant(PlantSpec.rigid(MOTOR, LOAD, Friction.NONE, 0, 1), STEP);
        assertThatThrownBy(() -> rigid.backlash(0.1)).isInstanceOf(IllegalStateException.class);
        assertThatThrownBy(() -> rigid.stiffnessFactor(0.5)).isInstanceOf(IllegalStateException.class);
        assertThatThrownBy(() -> new PlantSpec(
                        MOTOR, 0, Friction.NONE, 0, 1, PlantDetails.PLAIN.withCoupling(new Coupling(430, 0, 0))))
                .hasMessageContaining("load inertia");
    }
}
