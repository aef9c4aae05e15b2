package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class HoldingBrakeTest {

    private static final double STEP = 1e-4;
    private static final double INERTIA = 1e-3;

    private static Plant plant(HoldingBrake brake, double gravity) {
        return new Plant(
                PlantSpec.rigid(INERTIA, 0, Friction.NONE, gravity, 1).with(PlantDetails.PLAIN.withBrake(brake)), STEP);
    }

    private static void run(Plant plant, double seconds, double torque, boolean closed) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            plant.step(torque, closed);
        }
    }

    @Test
    void theBrakeOpensAndClosesAfterItsDelays() {
        Plant plant = plant(new HoldingBrake(2, Duration.ofMillis(20), Duration.ofMillis(40)), 0.5);
        run(plant, 0.040, 0, false);
        assertThat(plant.brakeState()).isEqualTo(BrakeState.RELEASING);
        assertThat(plant.motorAngle()).isZero();
        run(plant, 0.010, 0, false);
        assertThat(plant.brakeState()).isEqualTo(BrakeState.RELEASED);
        // α = T/J = 500 rad/s², 10 ms.
        assertThat(plant.motorSpeed()).isCloseTo(5, within(1e-9));
        run(plant, 0.020, 0, true);
        assertThat(plant.brakeState()).isEqualTo(BrakeState.ENGAGING);
        assertThat(plant.motorSpeed()).as("it falls while the brake closes").isCloseTo(15, within(1e-9));
        run(plant, 0.005, 0, true);
        assertThat(plant.brakeState()).isEqualTo(BrakeState.ENGAGED);
        assertThat(plant.brakeSlips()).isTrue();
        run(plant, 0.1, 0, true);
        assertThat(plant.motorSpeed()).isZero();
        assertThat(plant.brakeSlips()).isFalse();
    }

    @Test
    void anOrderTakenBackInTimeChangesNothing() {
        Plant plant = plant(new HoldingBrake(2, Duration.ofMillis(20), Duration.ofMillis(40)), 0.5);
        run(plant, 0.030, 0, false);
        run(plant, 0.010, 0, true);
        run(plant, 0.030, 0, false);
        assertThat(plant.brakeState()).isEqualTo(BrakeState.RELEASING);
        assertThat(plant.motorAngle()).isZero();
    }

    @Test
    void theBrakeHoldsUpToItsTorqueAndSlipsBeyond() {
        Plant plant = plant(HoldingBrake.immediate(2), 0.5);
        run(plant, 1, 1.5, true);
        assertThat(plant.motorAngle()).isZero();
        run(plant, 0.1, 1.6, true);
        // α = (1.6 + 0.5 − 2)/J = 100 rad/s², 0.1 s.
        assertThat(plant.motorSpeed()).isCloseTo(10, within(1e-9));
        assertThat(plant.brakeSlips()).isTrue();
    }

    @Test
    void aWornBrakeLetsTheLoadSink() {
        Plant plant = plant(HoldingBrake.immediate(2), 0.5);
        plant.brakeTorqueFactor(0.2);
        run(plant, 0.1, 0, true);
        assertThat(plant.motorSpeed()).isCloseTo(0.1 / INERTIA * 0.1, within(1e-9));
        assertThatThrownBy(() -> plant.brakeTorqueFactor(-1)).hasMessageContaining("-1.0");
    }

    @Test
    void aPlantIsNotSettledWhileItsBrakeIsOnTheWay() {
        Plant plant = plant(new HoldingBrake(2, Duration.ofMillis(20), Duration.ofMillis(40)), 0);
        run(plant, 0.010, 0, true);
        assertThat(plant.settled()).isTrue();
        run(plant, 0.010, 0, false);
        assertThat(plant.settled()).isFalse();
        run(plant, 0.040, 0, false);
        assertThat(plant.settled()).isTrue();
    }
}
