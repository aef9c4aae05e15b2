package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class SimulationSpecTest {

    @Test
    void massOnAScrewPullsAndWeighsAsTheTextbookSays() {
        // J = m·(L/2π)²: 100 kg, 10 mm → 2.53303e-4 kg·m²; T = F·L/2π: 1000 N, 10 mm → 1.591549 N·m.
        // Source: screw formulas of public engineering pages, recomputed.
        SimulationSpec.Load load = new SimulationSpec.LinearLoad(100, 0.010, 1000, 0, 0);
        assertThat(load.reflectedInertia()).isCloseTo(2.53303e-4, within(5e-10));
        assertThat(load.gravityTorque()).isCloseTo(1.591549, within(5e-7));
    }
}
