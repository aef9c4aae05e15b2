package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import org.junit.jupiter.api.Test;

class RestTest {

    private static final Sampled TEN_MS = Sampled.every(0.01);

    @Test
    void takesTheLastFiveAndWhatLiesBesideThem() {
        Rest rest = Rest.atEnd(TEN_MS.quantum(1).values(0, 0, 5, 9, 10, 11, 10, 10, 10, 10, 11), X);
        assertThat(rest.scatter().n()).isEqualTo(8);
        assertThat(rest.first()).isEqualTo(2);
        assertThat(rest.moving()).isFalse();
        assertThat(rest.mean()).isCloseTo(81.0 / 8, within(1e-12));
    }

    @Test
    void doesNotFollowASlowCreepBackwards() {
        // The range is that of the last five, widened once by three times itself, 4 and 12 steps; a creep leaves it and
        // is
        // not swallowed step by step.
        Rest rest = Rest.atEnd(TEN_MS.quantum(1).of(0, 1, t -> 100 * t), X);
        assertThat(rest.scatter().n()).isEqualTo(17);
        assertThat(rest.moving()).isTrue();
        assertThat(rest.speed()).isCloseTo(100, within(1e-9));
    }

    @Test
    void huntingBetweenStepsIsRest() {
        Rest rest = Rest.atEnd(TEN_MS.quantum(1).values(0, 4, 6, 4, 6, 4, 6, 4, 6), X);
        assertThat(rest.moving()).isFalse();
        assertThat(rest.mean()).isEqualTo(5);
        // Source: experimental standard deviation, JCGM 100:2008, 4.2.2, by hand: √(8·1/7).
        assertThat(rest.scatter().deviation()).isCloseTo(Math.sqrt(8.0 / 7), within(1e-12));
    }

    @Test
    void aLongRestIsCutAtFiftySamples() {
        assertThat(Rest.atEnd(TEN_MS.of(0, 5, t -> 1), X).scatter().n()).isEqualTo(Rest.MOST);
    }

    @Test
    void aSingleSampleIsARestWithoutDeviation() {
        Rest rest = Rest.atEnd(TEN_MS.values(0, 3), X);
        assertThat(rest.scatter().n()).isEqualTo(1);
        assertThat(rest.mean()).isEqualTo(3);
        assertThat(rest.scatter().deviation()).isZero();
        assertThat(rest.moving()).isFalse();
    }

    @Test
    void twoSamplesFarApartAreMotion() {
        Rest rest = Rest.atEnd(TEN_MS.values(0, 3, 4), X);
        assertThat(rest.moving()).isTrue();
        assertThat(rest.speed()).isCloseTo(100, within(1e-9));
    }

    // Constructed: ± 0.5 about a slope of 0.1 for each sample. The slope moves it by more than two steps, but is not
    // five
    // times its error: s = 0.5·√(n/(n − 2)) or so, and the five last ones span too little to tell.
    @Test
    void aSlopeThatNoiseExplainsIsRest() {
        Rest rest = Rest.atEnd(TEN_MS.values(0, 0, 1.1, 0.2, 1.3, 0.4, 1.5), X);
        assertThat(rest.moving()).isFalse();
        assertThat(rest.speed()).isGreaterThan(5);
    }

    // Two steps in all are what a reading that changes by one at both ends may show.
    @Test
    void aSlopeOfTwoStepsIsRest() {
        assertThat(Rest.atEnd(TEN_MS.quantum(1).values(0, 0, 0.5, 1, 1.5, 2), X).moving())
                .isFalse();
        assertThat(Rest.atEnd(TEN_MS.quantum(1).values(0, 0, 0.6, 1.2, 1.8, 2.4), X)
                        .moving())
                .isTrue();
        // By hand, beginning late: 2.4 in 40 ms.
        assertThat(Rest.atEnd(TEN_MS.quantum(1).values(5, 0, 0.6, 1.2, 1.8, 2.4), X)
                        .speed())
                .isCloseTo(60, within(1e-6));
    }

    @Test
    void samplesOfOneInstantHaveNoSlope() {
        Rest rest = Rest.atEnd(TEN_MS.points(1, 3, 1, 4, 1, 8), X);
        assertThat(rest.speed()).isZero();
        assertThat(rest.moving()).isFalse();
        assertThat(rest.mean()).isEqualTo(5);
    }
}
