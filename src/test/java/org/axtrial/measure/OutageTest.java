package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Constructed: values and uncertainties follow by hand. */
@Timeout(10)
class OutageTest {

    // 100 mm/s for at most 10 ms before the loss: half-width 0.5 mm, u = 0.5/√3; two counts of 0.012 mm add nothing
    // that shows.
    @Test
    void distanceCarriesWhatTheAxisWentBeforeTheLoss() {
        Measurement distance = Outage.distance(50, 35, -100, 0.01, 0.012, Unit.MILLIMETRE);
        assertThat(distance.value()).isEqualTo(15);
        assertThat(distance.standardUncertainty()).isCloseTo(0.5 / Math.sqrt(3), within(1e-4));
    }

    @Test
    void timeIsABoundEitherWay() {
        assertThat(Outage.time(0.4, 1.4, true).bound()).isEqualTo(Measurement.Bound.AT_MOST);
        assertThat(Outage.time(0.4, 1.4, false).bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(Outage.time(0.4, 1.4, true).value()).isCloseTo(1, within(1e-12));
    }
}
