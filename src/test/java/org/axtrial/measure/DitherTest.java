package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What noise leaves of a step in a mean, against readings drawn at random. */
class DitherTest {

    private static final int MANY = 100_000;

    private static Scatter readings(double deviation, int n) {
        return new Scatter(0, deviation, n, 0, n);
    }

    // Source: JCGM 100:2008, F.2.2.1: readings that do not scatter are known to half a step.
    @Test
    void withoutNoiseHalfAStepIsLeft() {
        assertThat(Dither.halfWidth(readings(0, 50), 2)).isEqualTo(1);
        assertThat(Dither.halfWidth(readings(0.5, 50), 2)).isEqualTo(1);
        assertThat(Dither.halfWidth(readings(3, 4), 2)).isEqualTo(1);
        assertThat(Dither.halfWidth(readings(3, 50), 0)).isZero();
        assertThat(Dither.halfWidth(readings(3, 50), 2)).isZero();
    }

    /** Source: Monte Carlo (JCGM 101:2008): mean of rounded values less their mean before rounding, over all places of the mean. */
    @ParameterizedTest
    @ValueSource(doubles = {0.05, 0.15, 0.25, 0.35, 0.45})
    void itIsWhatRoundedReadingsAreOffBy(double noise) {
        SplittableRandom random = new SplittableRandom(7);
        int places = 40;
        double squares = 0;
        for (int i = 0; i < places; i++) {
            double truth = i / (double) places;
            double off = 0;
            for (int j = 0; j < 20_000; j++) {
                double exact = truth + noise * random.nextGaussian();
                off += (Math.rint(exact) - exact) / 20_000;
            }
            squares += off * off / places;
        }
        // Of very many readings the noise is known.
        double seen = Math.hypot(noise, 1 / Math.sqrt(12));
        double half = Dither.halfWidth(readings(seen, MANY), 1);
        assertThat(half / Math.sqrt(3)).isCloseTo(Math.sqrt(squares), within(0.012));
    }

    @Test
    void fewReadingsAndRelatedOnesArePromisedLess() {
        double many = Dither.halfWidth(readings(0.5, 50), 1);
        assertThat(Dither.halfWidth(readings(0.5, 8), 1)).isGreaterThan(many);
        assertThat(Dither.halfWidth(new Scatter(0, 0.5, 50, 0.5, 50), 1)).isGreaterThan(many);
    }
}
