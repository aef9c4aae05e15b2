package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class PlantTest {

    private static final double STEP = 125e-6;
    private static final double INERTIA = 1e-3;

    private static Plant plant(double gravity, double viscous, double coulomb) {
        return new Plant(PlantSpec.rigid(INERTIA, 0, Friction.of(viscous, coulomb), gravity, 1), STEP);
    }

    private static void run(Plant plant, double seconds, double torque, boolean braked) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            plant.step(torque, braked);
        }
    }

    @Test
    void terminalSpeedIsDrivingTorqueOverViscousFriction() {
        Plant plant = plant(0, 0.01, 0.2);
        run(plant, 2.0, 1.2, false);
        // J·dω/dt = T − T_C − B·ω at rest of ω: ω = (T − T_C)/B = 100 rad/s. Newton's second law, arithmetic.
        assertThat(plant.motorSpeed()).isCloseTo(100.0, within(1e-6));
    }

    @Test
    void speedRisesWithTheTimeConstantOfInertiaOverViscousFriction() {
        Plant plant = plant(0, 0.01, 0);
        run(plant, INERTIA / 0.01, 1, false);
        // First-order step response: 63.2121 % at one time constant (control textbook value).
        assertThat(plant.motorSpeed() / 100).isCloseTo(0.632121, within(1e-6));
    }

    @Test
    void withoutFrictionTheAngleIsHalfAccelerationTimesTimeSquared() {
        Plant plant = plant(0, 0, 0);
        run(plant, 0.5, 0.1, false);
        assertThat(plant.motorSpeed()).isCloseTo(50, within(1e-9));
        assertThat(plant.motorAngle()).isCloseTo(12.5, within(1e-9));
    }

    @Test
    void aShaftAtRestStaysAtRestUpToTheCoulombFriction() {
        Plant plant = plant(0, 0, 0.3);
        run(plant, 1, 0.3, false);
        assertThat(plant.motorAngle()).isZero();
        run(plant, 1, -0.3, false);
        assertThat(plant.motorAngle()).isZero();
        run(plant, 0.01, 0.301, false);
        assertThat(plant.motorAngle()).isPositive();
    }

    @Test
    void aShaftThatRunsOutStopsOnceAndDoesNotChatter() {
        Plant plant = plant(0, 0, 0.3);
        run(plant, 0.1, 1.3, false);
        assertThat(plant.motorSpeed()).isCloseTo(100, within(1e-9));
        double before = plant.motorAngle();
        // Friction alone takes ω²·J/(2·T_C) = 16.667 rad (energy balance).
        run(plant, 1, 0, false);
        assertThat(plant.motorSpeed()).isZero();
        assertThat(plant.motorAngle() - before).isCloseTo(100 * 100 * INERTIA / 0.6, within(0.01));
        double stopped = plant.motorAngle();
        run(plant, 1, 0, false);
        assertThat(plant.motorAngle()).isEqualTo(stopped);
    }

    @Test
    void gravityPullsWhenTheBrakeIsOpenAndNotWhenItIsClosed() {
        Plant plant = plant(0.5, 0, 0.1);
        run(plant, 1, 0, true);
        assertThat(plant.motorAngle()).isZero();
        run(plant, 0.1, 0, false);
        assertThat(plant.motorSpeed()).isCloseTo(0.4 / INERTIA * 0.1, within(1e-9));
    }
}
