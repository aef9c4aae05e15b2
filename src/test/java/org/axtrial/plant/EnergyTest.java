package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** First law of thermodynamics: what came in is stored or dissipated. */
class EnergyTest {

    private static final double STEP = 125e-6;

    private static PlantSpec spec(PlantDetails details) {
        return new PlantSpec(3e-4, 2e-4, Friction.of(1e-3, 0.05), -0.3, 2.4, details);
    }

    private static PlantDetails everything() {
        return PlantDetails.PLAIN
                .withMotorFriction(new Friction(2e-4, 0.01, Optional.of(new Stribeck(0.02, 3))))
                .withStribeck(new Stribeck(0.08, 2))
                .withCogging(new Cogging(0.02, 24))
                .withCounterbalance(0.2)
                .withBrake(new HoldingBrake(3, Duration.ofMillis(20), Duration.ofMillis(40)))
                .withEndStops(new EndStops(-10, 40, 300, 0.4));
    }

    /** Torque to and fro against the end stops, brake in between, wear under way. */
    private static Energy variedRun(Plant plant, double step) {
        for (long i = 0; i < Math.round(4 / step); i++) {
            double time = i * step;
            double torque = time % 1 < 0.55 ? 1.2 : -1.1;
            boolean braked = time < 0.1 || (time > 1.4 && time < 1.5);
            if (i == Math.round(2 / step)) {
                plant.frictionFactor(1.5);
                plant.counterbalanceFactor(0.5);
                plant.turn(0.7);
            }
            plant.step(braked ? 0 : torque, braked);
        }
        return plant.energy();
    }

    private static double share(Energy energy) {
        return Math.abs(energy.imbalance()) / energy.dissipated();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 0.9, 0.6})
    void aRigidTrainKeepsItsEnergyWithinAThousandth(double efficiency) {
        PlantDetails details = everything().withEfficiency(new Efficiency(efficiency, efficiency));
        Energy energy = variedRun(new Plant(spec(details), STEP), STEP);
        assertThat(energy.dissipated()).isGreaterThan(20);
        assertThat(share(energy)).isLessThan(1e-3);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 0.9, 0.6})
    void anElasticTrainWithBacklashKeepsItsEnergyWithinAThousandth(double efficiency) {
        PlantDetails details = everything()
                .withEfficiency(new Efficiency(efficiency, efficiency))
                .withCoupling(Coupling.damped(430, 0.03, 3e-4, 2e-4).withBacklash(0.002));
        Plant plant = new Plant(spec(details), STEP);
        Energy energy = variedRun(plant, STEP);
        assertThat(energy.dissipated()).isGreaterThan(20);
        assertThat(share(energy)).isLessThan(1e-3);
        assertThat(plant.energy().elastic()).isNotNegative();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void clearOfTheEndStopsTheAccountClosesWithinAMillionth(boolean elastic) {
        PlantDetails clear = everything().withEndStops(new EndStops(-1e6, 1e6, 300, 0.4));
        PlantDetails details = elastic
                ? clear.withCoupling(Coupling.damped(430, 0.03, 3e-4, 2e-4).withBacklash(0.002))
                : clear;
        assertThat(share(variedRun(new Plant(spec(details), STEP), STEP))).isLessThan(1e-6);
    }

    @Test
    void wearOfTheCouplingIsAccountedAsEnergyFromOutside() {
        PlantDetails details = PlantDetails.PLAIN.withCoupling(Coupling.damped(430, 0.03, 3e-4, 2e-4));
        Plant plant = new Plant(spec(details), STEP);
        for (int i = 0; i < 400; i++) {
            plant.step(2, false);
        }
        double elastic = plant.energy().elastic();
        double outside = plant.energy().outside();
        plant.stiffnessFactor(0.5);
        // ½·k·φ² at half the stiffness is half of it, arithmetic.
        assertThat(plant.energy().elastic() / elastic).isEqualTo(0.5);
        assertThat(plant.energy().outside() - outside).isCloseTo(-elastic / 2, within(1e-12));
        for (int i = 0; i < 400; i++) {
            plant.step(-1, false);
        }
        assertThat(Math.abs(plant.energy().imbalance()) / plant.energy().kinetic())
                .isLessThan(1e-3);
    }

    @Test
    void theBalanceTightensWithTheStep() {
        PlantDetails details = PlantDetails.PLAIN
                .withCoupling(Coupling.damped(430, 0.03, 3e-4, 2e-4))
                .withCogging(new Cogging(0.05, 12));
        double wide = swing(details, STEP);
        double narrow = swing(details, STEP / 4);
        // Second order: a quarter of the step leaves about a sixteenth.
        assertThat(narrow).isLessThan(wide / 8);
    }

    private static double swing(PlantDetails details, double step) {
        Plant plant = new Plant(spec(details), step);
        double most = 0;
        for (long i = 0; i < Math.round(0.2 / step); i++) {
            plant.step(1, false);
            most = Math.max(most, Math.abs(plant.energy().imbalance()));
        }
        return most;
    }
}
