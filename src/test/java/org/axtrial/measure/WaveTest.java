package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

/** Ripples that are waves, constructed: 5 Hz, 20 high, on 1000, samples 10 ms apart. */
class WaveTest {

    private static final Sampled TEN_MS = Sampled.every(0.01).in(Unit.REVOLUTION_PER_MINUTE);

    private static double wave(double t) {
        return 1000 + 20 * Math.sin(2 * Math.PI * 5 * t + 1);
    }

    /** Two seconds, without the samples of so many periods in the middle. */
    private static Trace withGap(int missing) {
        List<Double> points = new ArrayList<>();
        for (int i = 0; i <= 200; i++) {
            if (i < 100 || i >= 100 + missing) {
                points.add(i * 0.01);
                points.add(wave(i * 0.01));
            }
        }
        return TEN_MS.points(points.stream().mapToDouble(x -> x).toArray());
    }

    private static List<Contribution> inMean(Wave wave) {
        Draft draft = new Draft("mean", "by hand", Unit.REVOLUTION_PER_MINUTE);
        wave.addToMean(draft);
        return draft.value(0).budget().contributions();
    }

    @Test
    void aWaveIsFound() {
        Wave wave = Wave.in(TEN_MS.of(0, 2, WaveTest::wave), X).orElseThrow();
        assertThat(wave.frequency()).isCloseTo(5, within(0.01));
        assertThat(wave.amplitude()).isCloseTo(20, within(0.1));
        assertThat(wave.time()).isCloseTo(2, within(1e-9));
        assertThat(wave.left().mean()).isCloseTo(1000, within(0.2));
        assertThat(wave.left().n()).isEqualTo(201);
        assertThat(wave.left().deviation()).isLessThan(0.1);
        assertThat(wave.gaps()).isEmpty();
    }

    @Test
    void whatIsNoWaveIsNotTakenForOne() {
        assertThat(Wave.in(TEN_MS.of(0, 2, t -> 1000), X)).isEmpty();
        assertThat(Wave.in(TEN_MS.of(0, 2, t -> 1000 + 10 * t), X)).isEmpty();
        assertThat(Wave.in(TEN_MS.of(0, 0.06, WaveTest::wave), X)).isEmpty();
        assertThat(Wave.in(TEN_MS.of(0, 0.3, WaveTest::wave), X))
                .as("one and a half of them")
                .isEmpty();
        assertThat(Wave.in(TEN_MS.of(0, 11, WaveTest::wave), X))
                .as("too many samples")
                .isEmpty();
    }

    // Source: constructed. Noise that keeps 0.7 of itself has much power at low frequencies, but hardly ever most of it
    // at one.
    @Test
    void relatedNoiseIsHardlyEverTakenForAWave() {
        SplittableRandom random = new SplittableRandom(7);
        int found = 0;
        for (int k = 0; k < 200; k++) {
            double[] noise = new double[100];
            for (int i = 1; i < noise.length; i++) {
                noise[i] = 0.7 * noise[i - 1] + random.nextGaussian();
            }
            found += Wave.in(TEN_MS.values(0, noise), X).isPresent() ? 1 : 0;
        }
        assertThat(found).isLessThanOrEqualTo(1);
    }

    // By hand: 20/(2π · 10) at either end, U-shaped.
    @Test
    void anUnfinishedOscillationIsLeftInTheMean() {
        Wave wave = new Wave(20, 5, 2, List.of(), Scatter.of(new double[201]));
        List<Contribution> parts = inMean(wave);
        assertThat(parts)
                .extracting(Contribution::name)
                .containsExactly("oscillation that has begun before", "oscillation that is not finished");
        assertThat(parts).allSatisfy(c -> {
            assertThat(c.distribution()).isEqualTo(Distribution.U_SHAPED);
            assertThat(c.spread()).isCloseTo(20 / (2 * Math.PI * 10), within(1e-3));
            assertThat(c.how()).isEqualTo("10 oscillations in the window");
        });
    }

    // By hand: of 201 samples 9 are missing, a gap of 0.1 s, 0.09 more than usual; 1.91 s are shown.
    @Test
    void aGapHidesPartOfTheWave() {
        Wave wave = Wave.in(withGap(9), X).orElseThrow();
        List<Contribution> parts = inMean(wave);
        double shown = 1.91;
        double most = 20 * Math.sin(Math.PI * 5 * 0.09) / (Math.PI * 5 * shown);
        assertThat(parts.get(2).name()).isEqualTo("wave in gaps");
        assertThat(parts.get(2).how()).isEqualTo("1 gap without samples");
        assertThat(parts.get(2).standardUncertainty()).isCloseTo(most / Math.sqrt(2), within(0.01));
        assertThat(parts.get(0).spread()).isCloseTo(20 / (2 * Math.PI * 5 * shown), within(0.01));
    }

    // By hand: A²/(16π·f·T·rms), a twentieth of which is left of an rms in other units.
    @Test
    void anUnfinishedOscillationIsLeftInTheRootMeanSquare() {
        Draft draft = new Draft("rms", "by hand", Unit.PERCENT);
        new Wave(20, 5, 2, List.of(), Scatter.of(new double[201])).addToRootMeanSquare(draft, 14, 0.05);
        assertThat(draft.value(0).budget().contributions())
                .hasSize(2)
                .allSatisfy(
                        c -> assertThat(c.spread()).isCloseTo(0.05 * 400 / (16 * Math.PI * 10 * 14), within(1e-12)));
    }

    // By hand: q²/(24 rms) of a wave over several steps, half a step of a low one.
    @Test
    void stepsOfAHighWaveAreNoise() {
        Wave wave = new Wave(20, 5, 2, List.of(), Scatter.of(new double[201]));
        assertThat(wave.steps(3, 14)).isCloseTo(9 / (24.0 * 14), within(1e-12));
        assertThat(wave.steps(12, 14)).isEqualTo(6);
    }

    /** The mean over nine and a quarter oscillations is known as well as the wave lets it be, and not to the scatter of its samples. */
    @Test
    void theMeanOfAWaveIsKnownByWhatIsUnfinished() {
        Measurement mean = ReportedSpeed.of(TEN_MS.quantum(1).of(0, 2, WaveTest::wave), X, 0.1, 1.95);
        assertThat(mean.standardUncertainty()).isBetween(0.2, 0.5);
        assertThat(mean.budget().contributions())
                .extracting(Contribution::how)
                .anyMatch(how -> how.endsWith("samples about their wave"));
    }
}
