package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.Random;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
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

    @Test
    void noiseAndUnevenSamplesDoNotHideIt() {
        Random random = new Random(3);
        double[] points = new double[2 * 400];
        for (int i = 0; i < 400; i++) {
            double t = 0.01 * i + 0.004 * random.nextDouble();
            points[2 * i] = t;
            points[2 * i + 1] = 600 + 2 * Math.sin(2 * Math.PI * 12.5 * t) + random.nextGaussian();
        }
        RippleFrequency found = RippleFrequency.of(SPEED.points(points), X, 0, 4);
        assertThat(Math.abs(found.frequency().value() - 12.5))
                .isLessThan(found.frequency().expandedUncertainty());
        assertThat(Math.abs(found.amplitude().value() - 2))
                .isLessThan(found.amplitude().expandedUncertainty());
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
}
