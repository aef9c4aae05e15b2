package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.Random;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RippleFrequencyTest {

    private static final Sampled SPEED = Sampled.every(0.01).in(Unit.REVOLUTION_PER_MINUTE);

    // Source: the sine that was put in.
    @ParameterizedTest
    @CsvSource({"1.3, 2", "7, 5", "23.4, 0.5", "49, 1"})
    void findsTheSineThatIsThere(double frequency, double amplitude) {
        Trace trace = SPEED.of(0, 5, t -> 600 + amplitude * Math.sin(2 * Math.PI * frequency * t + 1));
        RippleFrequency found = RippleFrequency.of(trace, X, 0, 5);
        assertThat(found.frequency().value()).isCloseTo(frequency, within(0.003));
        assertThat(found.amplitude().value()).isCloseTo(amplitude, within(0.01 * amplitude));
        assertThat(found.bound()).isCloseTo(50, within(1e-9));
        assertThat(found.frequency().resolution()).isCloseTo(0.2, within(1e-9));
        assertThat(found.amplitude().unit()).isEqualTo(Unit.REVOLUTION_PER_MINUTE);
    }

    // Stated are 95.45 %; by chance fewer than 88 of 100 come once in a thousand times.
    @Test
    void noiseAndUnevenSamplesDoNotHideIt() {
        int frequencies = 0;
        int amplitudes = 0;
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            double[] points = new double[2 * 400];
            for (int i = 0; i < 400; i++) {
                double t = 0.01 * i + 0.004 * random.nextDouble();
                points[2 * i] = t;
                points[2 * i + 1] = 600 + 2 * Math.sin(2 * Math.PI * 12.5 * t) + random.nextGaussian();
            }
            RippleFrequency found = RippleFrequency.of(SPEED.points(points), X, 0, 4);
            frequencies += holds(found.frequency(), 12.5);
            amplitudes += holds(found.amplitude(), 2);
        }
        assertThat(frequencies).isGreaterThanOrEqualTo(88);
        assertThat(amplitudes).isGreaterThanOrEqualTo(88);
    }

    private static int holds(Measurement measured, double truth) {
        return Math.abs(measured.value() - truth) <= measured.expandedUncertainty() ? 1 : 0;
    }

    // Source: constructed: the samples of a sine at half their rate all lie at the same height; at 0.99 of it they
    // wander, and
    // the fit tells the amplitude of those it sees.
    @Test
    void nearHalfTheRateTheAmplitudeIsOnlyABound() {
        Trace trace = SPEED.of(0, 0.39, t -> 600 + 3 * Math.cos(2 * Math.PI * 50 * t + 1));
        RippleFrequency found = RippleFrequency.of(trace, X, 0, 1);
        assertThat(found.amplitude().bound()).isEqualTo(Measurement.Bound.AT_LEAST);
        assertThat(found.amplitude().value()).isCloseTo(3 * Math.cos(1), within(0.01));
    }

    // Source: constructed: amplitude of a sine sampled at phases that lie together; Hipparchus' linear least squares as
    // reference.
    @Test
    void theAmplitudeIsThatOfTheSineAndNotOfItsSamples() {
        double[] points = new double[2 * 40];
        double[][] columns = new double[40][];
        double[] y = new double[40];
        for (int i = 0; i < 40; i++) {
            double t = 0.05 * i + 0.01 * (i % 4);
            points[2 * i] = t;
            y[i] = 2 * Math.sin(2 * Math.PI * 5 * t + 0.4);
            points[2 * i + 1] = 600 + y[i];
            columns[i] = new double[] {Math.sin(2 * Math.PI * 5 * t), Math.cos(2 * Math.PI * 5 * t)};
        }
        OLSMultipleLinearRegression reference = new OLSMultipleLinearRegression();
        reference.newSampleData(y, columns);
        double[] fit = reference.estimateRegressionParameters();
        RippleFrequency found = RippleFrequency.of(SPEED.points(points), X, 0, 2);
        assertThat(found.frequency().value()).isCloseTo(5, within(0.05));
        assertThat(found.amplitude().value()).isCloseTo(Math.hypot(fit[1], fit[2]), within(0.1));
    }

    // Source: sampling theorem: 93 Hz sampled at 100 Hz shows as 7 Hz, and 7 Hz may be 93, 107, 193 …
    @Test
    void aFasterRippleShowsAsASlowerOneAndIsNamedAmongTheAliases() {
        Trace trace = SPEED.of(0, 5, t -> 600 + Math.sin(2 * Math.PI * 93 * t));
        RippleFrequency found = RippleFrequency.of(trace, X, 0, 5);
        assertThat(found.frequency().value()).isCloseTo(7, within(0.01));
        assertThat(found.aliases(200))
                .hasSize(4)
                .satisfiesExactly(
                        f -> assertThat(f).isCloseTo(7, within(0.01)),
                        f -> assertThat(f).isCloseTo(93, within(0.01)),
                        f -> assertThat(f).isCloseTo(107, within(0.01)),
                        f -> assertThat(f).isCloseTo(193, within(0.01)));
    }

    @Test
    void nothingToFind() {
        assertThat(RippleFrequency.of(SPEED.of(0, 1, t -> 600), X, 0, 1)
                        .frequency()
                        .missing()
                        .orElseThrow())
                .isEqualTo("the sampled speed does not vary");
        Measurement none = RippleFrequency.of(SPEED.quantum(0.6).of(0, 1, t -> 600), X, 0, 1)
                .amplitude();
        assertThat(none.value()).isZero();
        assertThat(none.standardUncertainty()).isCloseTo(0.6 / Math.sqrt(12), within(1e-12));
        RippleFrequency few = RippleFrequency.of(SPEED.of(0, 0.06, t -> t), X, 0, 1);
        assertThat(few.amplitude().missing().orElseThrow()).startsWith("the window holds 7 of the 8 samples");
        assertThat(few.aliases(100)).isEmpty();
    }

    // Source: the sine that was put in, off the grid of trial frequencies; the record begins late.
    @ParameterizedTest
    @CsvSource({"1.037", "2.918", "7.123", "11.771", "19.268", "26.383", "33.614", "41.519", "46.472", "48.931"})
    void findsASineBetweenTheTrialFrequencies(double frequency) {
        Trace trace = SPEED.of(2, 7, t -> 600 + Math.sin(2 * Math.PI * frequency * t + 1));
        RippleFrequency found = RippleFrequency.of(trace, X, 2, 7);
        assertThat(found.frequency().value()).isCloseTo(frequency, within(0.005));
        assertThat(found.bound()).isCloseTo(50, within(1e-9));
    }

    // Constructed: forty samples hold four periods of the first sine and ten of the second, which are orthogonal, and
    // the
    // one is odd and the other even about the middle, so that neither pulls the frequency of the other: the second, of
    // mean square 0.5, is left; s = √(0.5 · 40/37), u = s·√(2/40). The window is 0.39 s long.
    @Test
    void whatTheSineLeavesIsItsUncertainty() {
        Trace trace = SPEED.of(
                0,
                0.39,
                t -> 600 + 2 * Math.sin(2 * Math.PI * 10 * (t - 0.195)) + Math.cos(2 * Math.PI * 25 * (t - 0.195)));
        RippleFrequency found = RippleFrequency.of(trace, X, 0, 1);
        assertThat(found.frequency().value()).isCloseTo(10, within(0.05));
        Contribution left = found.amplitude().budget().contributions().get(0);
        assertThat(left.name()).isEqualTo("what the sine leaves");
        assertThat(left.standardUncertainty()).isCloseTo(Math.sqrt(0.5 * 40 / 37) * Math.sqrt(2.0 / 40), within(0.002));
        assertThat(left.degreesOfFreedom()).isEqualTo(37);
        assertThat(left.how()).startsWith("s = 0.7").endsWith(" r/min of 40 samples");
        Contribution length = found.frequency().budget().contributions().get(0);
        assertThat(length.how()).isEqualTo("residuals of 40 samples over 0.39 s");
        // Source: Rife and Boorstyn 1974, from memory: √6·s/(π·A·T·√n).
        assertThat(length.standardUncertainty())
                .isCloseTo(Math.sqrt(6 * 0.5 * 40 / 37 / 40) / (Math.PI * 2 * 0.39), within(0.002));
        assertThat(found.frequency().resolution()).isCloseTo(1 / 0.39, within(1e-9));
    }

    // Constructed: sampled only at the phases 30°, 45° and 60° of a 10 Hz sine and half a turn later, where sine and
    // cosine
    // are not orthogonal; the mean is zero all the same, and the sine explains everything.
    @Test
    void sineAndCosineThatTheSamplesDoNotSeparateAreFittedTogether() {
        double[] points = new double[2 * 60];
        for (int i = 0; i < 60; i++) {
            int halfTurns = i / 3;
            double turns = 0.5 * halfTurns + (30 + 15 * (i % 3)) / 360.0;
            points[2 * i] = turns / 10;
            points[2 * i + 1] = 3 * Math.sin(2 * Math.PI * turns + 0.3);
        }
        RippleFrequency found = RippleFrequency.of(SPEED.points(points), X, 0, 2);
        assertThat(found.frequency().value()).isCloseTo(10, within(0.01));
        assertThat(found.amplitude().standardUncertainty()).isCloseTo(0, within(0.001));
    }

    @Test
    void eightSamplesAreEnough() {
        RippleFrequency found = RippleFrequency.of(SPEED.of(1, 1.07, t -> Math.sin(2 * Math.PI * 25 * t)), X, 0, 2);
        assertThat(found.frequency().missing()).isEmpty();
        assertThat(found.bound()).isCloseTo(50, within(1e-6));
    }

    // Source: sampling theorem; the highest frequency asked for belongs to the answer.
    @Test
    void theHighestFrequencyAskedForBelongsToTheAliases() {
        Measurement seven = new Draft("ripple frequency", "", Unit.HERTZ).value(7);
        RippleFrequency found = new RippleFrequency(seven, seven, 50);
        assertThat(found.aliases(193)).containsExactly(7.0, 93.0, 107.0, 193.0);
        assertThat(found.aliases(192)).containsExactly(7.0, 93.0, 107.0);
        Measurement zero = new Draft("ripple frequency", "", Unit.HERTZ).value(0);
        assertThat(new RippleFrequency(zero, zero, 50).aliases(100)).containsOnly(100.0);
    }
}
