package org.axtrial.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.hipparchus.stat.inference.KolmogorovSmirnovTest;
import org.junit.jupiter.api.Test;

class EncoderTest {

    private static Encoder encoder(double noise, long turns) {
        return new Encoder(new EncoderSpec(65_536, 0, noise, turns), 5);
    }

    @Test
    void fiveThousandCountsAreTwentySevenPointFourSixSixDegrees() {
        // Source: common practice, 5000 · 360°/65536 = 27.4658203125°.
        assertThat(encoder(0, 1).read(Math.toRadians(27.4658203125))).isEqualTo(5000);
        assertThat(encoder(0, 1).read(-Math.PI)).isEqualTo(-32_768);
    }

    @Test
    void anOffsetShiftsEveryReading() {
        Encoder shifted = new Encoder(new EncoderSpec(1000, Math.PI, 0, 1), 1);
        assertThat(shifted.read(0)).isEqualTo(500);
    }

    @Test
    void aSlipShiftsWhatIsReadFromThenOn() {
        Encoder encoder = encoder(0, 1);
        encoder.slip(2 * Math.PI / 65_536 * 10);
        assertThat(encoder.read(0)).isEqualTo(10);
    }

    @Test
    void aSingleTurnEncoderKnowsItsPlaceInOneTurnOnly() {
        assertThat(encoder(0, 1).absolute(65_536 * 3 + 7)).isEqualTo(7);
        assertThat(encoder(0, 1).absolute(-1)).isEqualTo(65_535);
        assertThat(encoder(0, 4096).absolute(65_536 * 3 + 7)).isEqualTo(65_536 * 3 + 7);
        assertThat(encoder(0, 4).absolute(65_536.0 * 5)).isEqualTo(65_536);
    }

    @Test
    void noiseSpreadsReadingsAsToldAndTheQuantisationAdds() {
        Encoder encoder = encoder(3 * 2 * Math.PI / 65_536, 1);
        DescriptiveStatistics readings = new DescriptiveStatistics();
        for (int i = 0; i < 100_000; i++) {
            readings.addValue(encoder.read(0.3));
        }
        assertThat(readings.getMean()).isCloseTo(0.3 * 65_536 / (2 * Math.PI), within(0.05));
        // Variances add: 3² of the noise and 1/12 of rounding (GUM F.2.2.1: a²/3 with a = 1/2).
        assertThat(readings.getVariance()).isCloseTo(9 + 1 / 12.0, within(0.15));
        assertThat(encoder.noisy()).isTrue();
        assertThat(encoder(0, 1).noisy()).isFalse();
    }

    @Test
    void noiseIsGaussian() {
        GaussianNoise noise = new GaussianNoise(42);
        double[] sample = new double[50_000];
        DescriptiveStatistics statistics = new DescriptiveStatistics();
        for (int i = 0; i < sample.length; i++) {
            sample[i] = noise.next();
            statistics.addValue(sample[i]);
        }
        // Independent check: Kolmogorov-Smirnov of Hipparchus against the normal distribution.
        double p = new KolmogorovSmirnovTest().kolmogorovSmirnovTest(new NormalDistribution(), sample);
        assertThat(p).isGreaterThan(0.01);
        assertThat(statistics.getMean()).isCloseTo(0, within(0.02));
        assertThat(statistics.getStandardDeviation()).isCloseTo(1, within(0.015));
        assertThat(statistics.getKurtosis()).as("excess kurtosis").isCloseTo(0, within(0.1));
        assertThat(statistics.getMax()).as("tails are there").isGreaterThan(3.5);
    }

    @Test
    void theSameSeedGivesTheSameReadings() {
        Encoder one = encoder(1e-3, 1);
        Encoder two = encoder(1e-3, 1);
        for (int i = 0; i < 1000; i++) {
            assertThat(one.read(1)).isEqualTo(two.read(1));
        }
    }
}
