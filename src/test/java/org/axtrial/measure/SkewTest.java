package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

// Source of all expected values: constructed from the laws of uniform and uniformly accelerated motion.
class SkewTest {

    private static final double ACCELERATION = 10;
    private static final double SPEED = 1;
    private static final Sampled MM = Sampled.every(0.01).in(Unit.MILLIMETRE);

    /** Stands until 0, then speeds up to {@link #SPEED} and keeps it. */
    private static double ramp(double time) {
        double rampTime = SPEED / ACCELERATION;
        double moving = Math.max(0, time);
        return moving < rampTime
                ? ACCELERATION / 2 * moving * moving
                : SPEED * moving - SPEED * SPEED / (2 * ACCELERATION);
    }

    @Test
    void axesThatRunAlikeFromDifferentPlacesHaveNoSkew() {
        Trace one = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace two = MM.of(-0.1, 0.5, t -> 250 + ramp(t));
        assertThat(Skew.peak(one, two, X).value()).isCloseTo(0, within(1e-9));
    }

    @Test
    void anAxisThatStartsLaterIsBehindBySpeedTimesDelay() {
        Trace one = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace two = MM.of(-0.1, 0.5, t -> ramp(t - 0.05));
        assertThat(Skew.peak(one, two, X).value()).isCloseTo(SPEED * 0.05, within(1e-9));
        assertThat(Skew.peak(two, one, X).value()).isCloseTo(SPEED * 0.05, within(1e-9));
    }

    @Test
    void samplesThatLieBetweenThoseOfTheOtherAxisAreNoSkew() {
        Trace one = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace two = MM.of(-0.105, 0.505, SkewTest::ramp);
        // Taken side by side, samples 5 ms apart would look like 1 mm/s · 5 ms = 5 µm.
        assertThat(Skew.peak(one, two, X).value()).isLessThan(ACCELERATION * 0.01 * 0.01 / 8 + 1e-9);
    }

    @Test
    void commandsThatWentOutAtDifferentMomentsAreSetOnOneClock() {
        Trace one = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace two = MM.of(-0.1, 0.5, t -> ramp(t - 0.05)).withZeroAt(0.05);
        assertThat(Skew.peak(one, two, X).value()).isCloseTo(SPEED * 0.05, within(1e-9));
    }

    @Test
    void aSkewThatGrowsToTheEndIsALowerBound() {
        Trace one = MM.of(-0.1, 0.4, t -> t < 0 ? 0 : 5 * t * t);
        Trace two = MM.of(-0.1, 0.4, t -> t < 0 ? 0 : 4 * t * t);
        Measurement skew = Skew.peak(one, two, X);
        assertThat(skew.value()).isCloseTo(0.16, within(1e-9));
        assertThat(skew.bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(skew.marks().get(0).seconds()).isCloseTo(0.4, within(1e-9));
    }

    @Test
    void aSteadySkewIsNotTakenForOneThatGrows() {
        Sampled looks = MM.quantum(1e-9);
        Trace one = looks.points(-0.1, 0, -0.05, 0, 0, 0, 0.05, 0.3, 0.1, 0.3, 0.15, Math.nextUp(0.3));
        Trace two = looks.of(-0.1, 0.15, t -> 0);
        Measurement skew = Skew.peak(one, two, X);
        assertThat(skew.value()).isEqualTo(0.3);
        assertThat(skew.bound()).isEqualTo(Measurement.Bound.EXACT);
        assertThat(skew.marks().get(0).seconds()).isCloseTo(0.05, within(1e-9));
    }

    @Test
    void theSecondAxisIsTakenInTheUnitOfTheFirst() {
        Trace one = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace two = MM.in(Unit.METRE).quantum(1e-6).of(-0.1, 0.5, t -> -ramp(t) / 1000);
        Measurement skew = Skew.peak(one, two, X);
        assertThat(skew.unit()).isEqualTo(Unit.MILLIMETRE);
        assertThat(skew.value()).isCloseTo(2 * ramp(0.5), within(1e-9));
        assertThat(skew.resolution()).isCloseTo(1e-3, within(1e-12));
    }

    @Test
    void aLengthAndAnAngleCannotBeCompared() {
        Trace length = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace angle = MM.in(Unit.DEGREE).of(-0.1, 0.5, SkewTest::ramp);
        assertThatThrownBy(() -> Skew.peak(length, angle, X)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Skew.peak(length, length, "y")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void withoutSamplesOfBothBeforeTheCommandsThereIsNoSkew() {
        Trace whole = MM.of(-0.1, 0.5, SkewTest::ramp);
        Trace late = MM.of(0.1, 0.5, SkewTest::ramp);
        Trace other = MM.of(2, 3, SkewTest::ramp);
        Trace none = MM.values(0);
        for (Trace second : new Trace[] {late, other, none}) {
            assertThat(Skew.peak(whole, second, X).missing())
                    .hasValueSatisfying(why -> assertThat(why).contains("while they still stand"));
            assertThat(Skew.peak(second, whole, X).missing()).isPresent();
        }
    }

    @Test
    void theMomentOfEachSampleCountsWithTheSpeedOfItsAxis() {
        Trace one = MM.roundTrip(0.004).of(-0.1, 0.5, t -> ramp(t));
        Trace two = MM.roundTrip(0.008).of(-0.1, 0.5, t -> 0);
        assertThat(Skew.peak(one, two, X).budget().contributions())
                .anySatisfy(c -> {
                    assertThat(c.name()).isEqualTo("moment of the first axis");
                    assertThat(c.spread()).isCloseTo(SPEED * 0.002, within(1e-9));
                })
                .noneMatch(c -> c.name().equals("moment of the second axis"));
    }

    /** The axes are looked at up to half a round trip beside the middle, at moments of their own, and round. */
    @Property
    void theTrueSkewIsNeverFartherOffThanTheBudgetAllows(
            @ForAll @DoubleRange(min = 0, max = 0.08) @Scale(6) double delay,
            @ForAll @DoubleRange(min = 0, max = 0.0099) @Scale(6) double shift,
            @ForAll @DoubleRange(min = -0.002, max = 0.002) @Scale(6) double early,
            @ForAll @DoubleRange(min = -0.002, max = 0.002) @Scale(6) double late,
            @ForAll @DoubleRange(min = 0.0001, max = 0.01) @Scale(6) double quantum) {
        Sampled looks = MM.roundTrip(0.004).quantum(quantum);
        Trace one = looks.of(-0.1, 0.5, t -> ramp(t + early));
        Trace two = looks.of(-0.1 - shift, 0.5 + shift, t -> ramp(t + late - delay));
        Measurement skew = Skew.peak(one, two, X);
        double allowed = skew.budget().contributions().stream()
                .mapToDouble(Contribution::spread)
                .sum();
        assertThat(skew.value()).isCloseTo(SPEED * delay, within(allowed + 1e-9));
    }
}
