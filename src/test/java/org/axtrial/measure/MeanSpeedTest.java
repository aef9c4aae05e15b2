package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MeanSpeedTest {

    // Source: speed by counting, quantum 60/(CPR·T) r/min; triangular error of two quantised ends.
    @ParameterizedTest
    @CsvSource({
        "65536, 0.001, 0.91552734375",
        "10000, 0.001, 6",
        "10000, 0.01, 0.6",
        "131072, 0.001, 0.457763671875",
        "8388608, 0.000125, 0.057220458984375",
    })
    void theSpeedQuantumIsTheResolution(double countsPerRevolution, double time, double quantum) {
        Sampled revolutions = Sampled.every(time).in(Unit.REVOLUTION).quantum(1 / countsPerRevolution);
        Measurement speed = MeanSpeed.of(revolutions.values(0, 0, 0), X, 0, 1)
                .in(Unit.REVOLUTION_PER_MINUTE, Conversion.SAME_DIMENSION);
        assertThat(speed.resolution()).isCloseTo(quantum, within(1e-12));
        assertThat(speed.standardUncertainty()).isCloseTo(quantum / Math.sqrt(6), within(1e-12));
    }

    @Test
    void isDisplacementOverTimeOfTheWindowOnly() {
        Trace trace = Sampled.every(0.01).of(0, 1, t -> t < 0.2 ? 0 : 360 * (t - 0.2));
        Measurement speed = MeanSpeed.of(trace, X, 0.3, 0.8);
        assertThat(speed.value()).isCloseTo(360, within(1e-9));
        assertThat(speed.unit()).isEqualTo(Unit.DEGREE_PER_SECOND);
        assertThat(speed.marks()).extracting(Mark::seconds).containsExactly(0.3, 0.8);
    }

    @Test
    void halfRoundTripsCountWithTheSpeed() {
        Trace trace = Sampled.every(0.01).roundTrip(0.004).of(0, 1, t -> -100 * t);
        Measurement speed = MeanSpeed.of(trace, X, 0, 1);
        assertThat(speed.value()).isCloseTo(-100, within(1e-9));
        // Source: JCGM 100:2008, 4.3.7 and 5.1.2: two instants of ± 2 ms in 1 s at 100 °/s.
        assertThat(speed.standardUncertainty()).isCloseTo(100 * Math.sqrt(2) * 0.002 / Math.sqrt(3), within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({
        "rev, rev/s, 1",
        "deg, deg/s, 1",
        "arcmin, deg/s, 0.016666666666666666",
        "arcsec, deg/s, 0.0002777777777777778",
        "rad, rad/s, 1",
        "m, m/s, 1",
        "mm, mm/s, 1",
        "um, mm/s, 0.001",
        "count, count/s, 1",
    })
    void theUnitIsThatOfThePositionPerSecond(String position, String speed, double factor) {
        Sampled sampled = Sampled.every(1).in(Unit.of(position).orElseThrow()).quantum(0.5);
        Measurement measured = MeanSpeed.of(sampled.values(0, 0, 1), X, 0, 1);
        assertThat(measured.unit().symbol()).isEqualTo(speed);
        assertThat(measured.value()).isCloseTo(factor, within(1e-15));
        assertThat(measured.resolution()).isCloseTo(factor / 2, within(1e-15));
    }

    @Test
    void whatIsNoPositionHasNoSpeed() {
        Trace trace = Sampled.every(1).in(Unit.PERCENT).values(0, 0, 1);
        assertThatThrownBy(() -> MeanSpeed.of(trace, X, 0, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("not a unit of position: %");
    }

    @Test
    void oneSampleIsNoSpeed() {
        assertThat(MeanSpeed.of(Sampled.every(1).values(0, 0, 1), X, 0.5, 1.5)
                        .missing()
                        .orElseThrow())
                .isEqualTo("the window from 0.5 s to 1.5 s holds 1 of the two samples needed; hold the speed longer or"
                        + " sample faster");
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "2, 1", "NaN, 1", "0, NaN"})
    void anEmptyWindowIsRefused(double from, double to) {
        assertThatThrownBy(() -> MeanSpeed.of(Sampled.every(1).values(0, 0, 1), X, from, to))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("window");
    }

    @Test
    void theBudgetNamesBothRoundTrips() {
        Trace trace = Sampled.every(0.01).roundTrip(0.004).of(0, 1, t -> -100 * t);
        assertThat(MeanSpeed.of(trace, X, 0, 1).budget().contributions())
                .extracting(Contribution::how)
                .containsExactly("half a round trip is 2 ms", "half a round trip is 2 ms");
    }
}
