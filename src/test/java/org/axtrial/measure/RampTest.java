package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import java.util.Random;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Acceleration, stopping and speed drift on motions whose answer is known. */
class RampTest {

    private static final Sampled SPEED = Sampled.every(0.01).in(Unit.MILLIMETRE_PER_SECOND);
    private static final Sampled POSITION = Sampled.every(0.01).in(Unit.MILLIMETRE);

    // Source: definition of a ramp: 500 mm/s in 0.25 s are 2000 mm/s².
    @Test
    void aRampIsItsSlope() {
        Trace up = SPEED.of(0, 1, t -> 500 * Math.min(1, Math.max(0, (t - 0.1) / 0.25)));
        Measurement acceleration = Acceleration.of(up, X, 0, 500);
        assertThat(acceleration.value()).isCloseTo(2000, within(1e-8));
        assertThat(acceleration.unit()).isEqualTo(Unit.MILLIMETRE_PER_SECOND_SQUARED);
        assertThat(acceleration.marks().get(0).seconds()).isCloseTo(0.13, within(0.006));
        Trace down = SPEED.of(0, 1, t -> -500 + 500 * Math.min(1, Math.max(0, (t - 0.1) / 0.25)));
        assertThat(Acceleration.of(down, X, -500, 0).value()).isCloseTo(2000, within(1e-8));
        Trace braking = SPEED.of(0, 1, t -> 500 - 500 * Math.min(1, Math.max(0, (t - 0.1) / 0.25)));
        assertThat(Acceleration.of(braking, X, 500, 0).value()).isCloseTo(2000, within(1e-8));
        assertThat(Acceleration.of(braking, X, 500, 0).name()).isEqualTo("deceleration");
    }

    // Source: Monte Carlo (JCGM 101:2008): noise of 2 mm/s on the speed; what the budgets say has to meet the scatter.
    @Test
    void theBudgetOfARampMeetsItsScatter() {
        Random random = new Random(5);
        double squares = 0;
        double stated = 0;
        for (int i = 0; i < 2000; i++) {
            Trace trace =
                    SPEED.of(0, 1, t -> 500 * Math.min(1, Math.max(0, (t - 0.1) / 0.4)) + 2 * random.nextGaussian());
            Measurement acceleration = Acceleration.of(trace, X, 0, 500);
            squares += (acceleration.value() - 1250) * (acceleration.value() - 1250);
            stated += acceleration.standardUncertainty() * acceleration.standardUncertainty();
        }
        assertThat(Math.sqrt(stated / squares)).isBetween(0.9, 1.3);
    }

    @Test
    void aRampNeedsSamples() {
        Trace trace = SPEED.of(0, 1, t -> 500 * Math.min(1, t / 0.03));
        assertThat(Acceleration.of(trace, X, 0, 500).missing().orElseThrow())
                .isEqualTo("the ramp holds 2 of the 3 samples needed; sample faster or take a longer ramp");
        assertThat(Acceleration.of(trace, X, 0, 600).missing().orElseThrow())
                .isEqualTo("the speed did not reach 90 % of the change; record the whole ramp");
        assertThatThrownBy(() -> Acceleration.of(trace, X, 5, 5))
                .hasMessage("a ramp needs two different speeds, got 5.0 twice");
    }

    private static double stop(double t, double speed, double reaction, double deceleration) {
        double braking = Math.min(Math.max(0, t - reaction), speed / deceleration);
        double before = Math.min(t, reaction);
        return speed * before + speed * braking - deceleration * braking * braking / 2;
    }

    // Source: stopping distance v·t_r + v²/(2a): worked values in m, m/s, s, m/s².
    @ParameterizedTest
    @CsvSource({"2, 0.1, 5, 0.6", "1, 0.05, 2, 0.3", "0.5, 0.02, 1, 0.135"})
    void stoppingDistance(double speed, double reaction, double deceleration, double distance) {
        assertThat(Stopping.expectedDistance(speed, reaction, deceleration)).isCloseTo(distance, within(1e-12));
        Trace trace = Sampled.every(0.01).in(Unit.METRE).of(-0.095, 2, t -> stop(t, speed, reaction, deceleration));
        Measurement measured = Stopping.distance(trace, X);
        assertThat(measured.value()).isCloseTo(distance, within(1e-9));
        Measurement time = Stopping.time(trace, X, 1e-9);
        assertThat(time.value()).isCloseTo(reaction + speed / deceleration, within(0.01));
        assertThat(Math.abs(time.value() - reaction - speed / deceleration)).isLessThan(time.expandedUncertainty());
    }

    @Test
    void aStopNeedsItsBeginningAndItsEnd() {
        assertThat(Stopping.distance(POSITION.of(0, 1, t -> 1), X).missing().orElseThrow())
                .startsWith("no samples on both sides of the stop command");
        assertThat(Stopping.distance(POSITION.quantum(0.01).of(-0.1, 1, t -> 100 * t), X)
                        .missing()
                        .orElseThrow())
                .startsWith("the axis still moved");
        assertThat(Stopping.time(POSITION.quantum(0.01).of(-0.1, 1, t -> 100 * t), X, 0.1)
                        .missing())
                .isPresent();
        Trace cut = POSITION.of(-0.1, 0.03, t -> 100 * t);
        assertThat(Stopping.distance(cut, X).missing().orElseThrow()).startsWith("the record holds 4 of the 5 samples");
        assertThat(Stopping.time(cut, X, 0.1).missing().orElseThrow())
                .startsWith("the record holds 4 of the 5 samples");
        assertThat(Stopping.time(POSITION.of(-0.1, -0.05, t -> 1), X, 0.1).missing())
                .isPresent();
        assertThatThrownBy(() -> Stopping.expectedDistance(1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    // Source: constructed: a stop of 10 mm that dies away with a time constant of 20 ms and is not seen to its end.
    @Test
    void aDyingTailCountsWithItsCreep() {
        Trace trace = POSITION.of(-0.1, 0.15, t -> t < 0 ? 500 * t : 10 * (1 - Math.exp(-t / 0.02)));
        Measurement distance = Stopping.distance(trace, X);
        assertThat(Math.abs(distance.value() - 10)).isLessThan(distance.expandedUncertainty());
        assertThat(distance.budget().contributions())
                .extracting(Contribution::name)
                .contains("creep at the end");
        Measurement time = Stopping.time(trace, X, 0.5);
        assertThat(Math.abs(time.value() - 0.02 * Math.log(20))).isLessThan(time.expandedUncertainty());
        assertThat(Stopping.time(trace, X, 0.1).missing().orElseThrow()).startsWith("the axis still moved");
        assertThat(Stopping.distance(trace.between(-1, 0.1), X).missing().orElseThrow())
                .startsWith("the axis still moved");
    }

    @Test
    void roundTripAndSpeedCountInTheStoppingDistance() {
        Trace trace = POSITION.roundTrip(0.004).of(-0.095, 2, t -> stop(t, 100, 0.1, 500));
        Measurement measured = Stopping.distance(trace, X);
        assertThat(measured.budget().contributions()).anySatisfy(c -> {
            assertThat(c.name()).isEqualTo("instant of the sample before");
            // Source: JCGM 100:2008, 4.3.7: half of 100 mm/s · 2 ms / √3, the order being in the middle of two samples.
            assertThat(c.standardUncertainty()).isCloseTo(0.1 / Math.sqrt(3), within(1e-9));
        });
    }

    // Source: constructed: 3 mm/s in 1 s, and a ripple of whole periods, which the line does not follow.
    @Test
    void driftIsTheSlopeTimesTheWindow() {
        Trace trace = SPEED.of(0, 2, t -> 1000 + 3 * t);
        Measurement drift = SpeedDrift.of(trace, X, 0.5, 1.5);
        assertThat(drift.value()).isCloseTo(3, within(1e-9));
        assertThat(drift.unit()).isEqualTo(Unit.MILLIMETRE_PER_SECOND);
        assertThat(SpeedDrift.of(trace, X, 0.5, 0.515).missing()).isPresent();
    }

    // Source: Monte Carlo (JCGM 101:2008): related noise; with a white-noise error the drift would be overrated.
    @Test
    void relatedNoiseMakesTheDriftLessCertain() {
        Random random = new Random(9);
        double squares = 0;
        double stated = 0;
        for (int i = 0; i < 2000; i++) {
            double[] noise = new double[201];
            for (int k = 1; k < noise.length; k++) {
                noise[k] = 0.7 * noise[k - 1] + random.nextGaussian();
            }
            Measurement drift = SpeedDrift.of(SPEED.values(0, noise), X, 0, 2.1);
            squares += drift.value() * drift.value();
            stated += drift.standardUncertainty() * drift.standardUncertainty();
        }
        assertThat(Math.sqrt(stated / squares)).isBetween(0.85, 1.2);
    }

    // Constructed: 20 mm/s for each of the samples between 10 % and 90 % of 500, which are those from 0.13 to 0.32 s;
    // twenty samples P apart have Σ(t − t̄)² = P²·20·(20² − 1)/12. Source: JCGM 100:2008, F.2.2.1, 4.3.7 and 5.1.2.
    @Test
    void theBudgetOfARampByHand() {
        Trace trace = SPEED.quantum(1).roundTrip(0.004).of(0, 1, t -> 500 * Math.min(1, Math.max(0, (t - 0.1) / 0.25)));
        Measurement acceleration = Acceleration.of(trace, X, 0, 500);
        double spread = Math.sqrt(1e-4 * 20 * 399 / 12);
        assertThat(acceleration.marks()).extracting(Mark::label).containsExactly("ramp from", "ramp to");
        assertThat(acceleration.marks().get(0).seconds()).isCloseTo(0.13, within(1e-9));
        assertThat(acceleration.marks().get(1).seconds()).isCloseTo(0.32, within(1e-9));
        assertThat(acceleration.resolution()).isCloseTo(1 / spread, within(1e-9));
        List<Contribution> parts = acceleration.budget().contributions();
        assertThat(parts)
                .extracting(Contribution::name)
                .containsExactly("slope of the line", "steps and instants that the line does not show");
        assertThat(parts.get(0).how()).contains("about the line through 20 samples");
        // Even samples of an even ramp: what their steps and instants may be does not show, the residual is 0.
        assertThat(parts.get(1).standardUncertainty())
                .isCloseTo(Math.sqrt(1.0 / 12 + 2000 * 2000 * 0.002 * 0.002 / 3) / spread, within(1e-6));
        assertThat(parts.get(1).how()).isEqualTo("one step is 1 mm/s, half a round trip about 2 ms");
    }

    // Constructed: samples at exactly 10 % and 90 % of 0 to 10 belong to the ramp.
    @Test
    void bothEdgesBelongToTheRamp() {
        Measurement edges = Acceleration.of(SPEED.values(0, 0, 0.5, 1, 5, 9, 9.5, 10), X, 0, 10);
        assertThat(edges.value()).isCloseTo(400, within(1e-9));
        assertThat(edges.marks()).extracting(Mark::seconds).containsExactly(0.02, 0.04);
    }

    @Test
    void aRecordMayBeginWithinTheRampAndEndWithIt() {
        Measurement cut = Acceleration.of(SPEED.values(0, 2, 4, 6, 8, 10), X, 0, 10);
        assertThat(cut.value()).isCloseTo(200, within(1e-9));
        assertThat(cut.marks()).extracting(Mark::seconds).containsExactly(0.0, 0.03);
    }

    @Test
    void aReversalAtEqualSpeedIsAnAcceleration() {
        Measurement reversal = Acceleration.of(SPEED.of(0, 0.4, t -> -20 + 100 * t), X, -20, 20);
        assertThat(reversal.name()).isEqualTo("acceleration");
        assertThat(reversal.value()).isCloseTo(100, within(1e-9));
    }

    @Test
    void aRampThatWasOverBeforeTheRecordHasNoSamples() {
        assertThat(Acceleration.of(SPEED.values(0, 10, 10, 10, 10), X, 0, 10)
                        .missing()
                        .orElseThrow())
                .startsWith("the ramp holds 0 of the 3 samples needed");
        assertThat(Acceleration.of(SPEED.values(0, 0, 0, 0, 3, 6, 10), X, 0, 10)
                        .missing()
                        .orElseThrow())
                .startsWith("the ramp holds 2 of the 3 samples needed");
    }

    // Constructed: braking from 100 mm/s at 500 mm/s²; the second difference of the samples around the order is −500
    // where
    // the reaction is over at once, so that a·P²/8 = 6.25 µm may hide.
    @Test
    void theBudgetOfAStoppingDistance() {
        Trace trace = POSITION.quantum(1e-6).roundTrip(0.004).of(-0.095, 2, t -> stop(t, 100, 0, 500));
        Measurement measured = Stopping.distance(trace, X);
        List<Contribution> parts = measured.budget().contributions();
        assertThat(parts)
                .extracting(Contribution::name)
                .containsExactly(
                        "quantisation at the command",
                        "quantisation at the end",
                        "position between two samples",
                        "instant of the sample before",
                        "instant of the sample after",
                        "moment of the command");
        assertThat(parts.get(2).standardUncertainty()).isCloseTo(500 * 1e-4 / 8, within(1e-3));
        assertThat(parts.get(2).how())
                .isEqualTo("samples 10 ms apart; an even deceleration leaves the straight line by all of that");
        assertThat(parts.get(3).how()).isEqualTo("half a round trip is 2 ms");
        assertThat(Math.abs(measured.value() - 10)).isLessThan(measured.expandedUncertainty());
    }

    @Test
    void fiveSamplesAfterTheOrderAreEnough() {
        Trace trace = POSITION.values(-0.02, 0, 1, 2, 2, 2, 2, 2);
        assertThat(Stopping.distance(trace, X).value()).isCloseTo(0, within(1e-12));
        assertThat(Stopping.time(trace, X, 0.5).missing()).isEmpty();
    }

    @Test
    void aStopFromRestTakesNoWay() {
        assertThat(Stopping.expectedDistance(0, 0.1, 5)).isZero();
        assertThat(Stopping.expectedDistance(2, 0, 5)).isCloseTo(0.4, within(1e-12));
        assertThatThrownBy(() -> Stopping.expectedDistance(-1, 0, 5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Stopping.expectedDistance(1, -0.1, 5)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void driftNeedsThreeSamples() {
        assertThat(SpeedDrift.of(SPEED.of(0, 1, t -> 3 * t), X, 0.5, 0.52).value())
                .isCloseTo(0.06, within(1e-9));
    }
}
