package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class WindingTest {

    private static final double STEP = 125e-6;

    private static Plant plant() {
        return new Plant(
                PlantSpec.rigid(1e-3, 0, Friction.of(0, 100), 0, 2)
                        .with(PlantDetails.PLAIN.withThermalTime(Duration.ofSeconds(10))),
                STEP);
    }

    private static void run(Plant plant, double seconds, double torque) {
        for (long i = 0; i < Math.round(seconds / STEP); i++) {
            plant.step(torque, false);
        }
    }

    @Test
    void restingIsTheSameAsStepping() {
        Plant stepped = plant();
        Plant rested = plant();
        run(stepped, 3, 1.5);
        run(stepped, 7, 0.5);
        run(rested, 3, 1.5);
        run(rested, 1, 0.5);
        assertThat(rested.settled()).isTrue();
        rested.rest(Math.round(2 / STEP));
        rested.rest(Math.round(4 / STEP));
        assertThat(rested.windingLoad()).isCloseTo(stepped.windingLoad(), within(1e-12));
        rested.step(0.5, false);
        stepped.step(0.5, false);
        assertThat(rested.windingLoad()).isCloseTo(stepped.windingLoad(), within(1e-12));
    }

    @Test
    void howARestIsCutChangesNoBit() {
        Plant once = plant();
        Plant often = plant();
        run(once, 1, 1.5);
        run(often, 1, 1.5);
        once.rest(3000);
        for (int i = 0; i < 3000; i++) {
            often.rest(1);
        }
        assertThat(often.windingLoad()).isEqualTo(once.windingLoad());
    }

    @Test
    void ratedTorqueNeverTripsAndMoreThanFivePercentAboveDoes() {
        Plant plant = plant();
        run(plant, 100, 2);
        assertThat(plant.windingLoad()).isCloseTo(1, within(1e-4));
        assertThat(plant.windingTripped()).isFalse();
        run(plant, 100, 2 * 1.06);
        assertThat(plant.windingTripped()).isTrue();
        assertThat(plant.settled()).as("it would cool and reset").isFalse();
        run(plant, 2, 0);
        assertThat(plant.windingLoad()).isLessThan(1);
        assertThat(plant.windingTripped()).isFalse();
    }
}
