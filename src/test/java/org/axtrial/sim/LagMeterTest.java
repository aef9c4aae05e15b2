package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.hipparchus.stat.descriptive.rank.Percentile;
import org.junit.jupiter.api.Test;

class LagMeterTest {

    private final LagMeter meter = new LagMeter();

    @Test
    void nothingSeenIsNothingTold() {
        assertThat(meter.read()).isEqualTo(new StepLag(0, 0, Duration.ZERO, Duration.ZERO, Duration.ZERO));
    }

    @Test
    void onlyALagAboveTheBoundIsAnOverrun() {
        long bound = StepLag.BOUND.toNanos();
        meter.see(bound - 1);
        meter.see(bound);
        meter.see(bound + 1);
        assertThat(meter.read().overruns()).isEqualTo(1);
        assertThat(meter.read().worst()).isEqualTo(StepLag.BOUND.plusNanos(1));
    }

    @Test
    void aClockThatStandsStillIsNoLag() {
        meter.see(-5);
        assertThat(meter.read()).isEqualTo(new StepLag(1, 0, Duration.ZERO, Duration.ZERO, Duration.ZERO));
    }

    @Test
    void aLagBeyondEveryClassIsToldAsTheWorst() {
        meter.see(5_000_000_000L);
        assertThat(meter.read().median()).isEqualTo(Duration.ofSeconds(5));
        assertThat(meter.read().p99()).isEqualTo(Duration.ofSeconds(5));
    }

    // Independent of the class under test: quantiles of Hipparchus, estimation type R_1, the inverse of the empirical
    // distribution (Hyndman and Fan 1996, definition 1).
    @Test
    void quantilesAreThoseOfTheWholeSampleToTheWidthOfAClass() {
        SplittableRandom random = new SplittableRandom(4);
        double[] sample = new double[20_011];
        Arrays.setAll(sample, i -> Math.pow(random.nextDouble(), 6) * 60e6);
        for (double lag : sample) {
            meter.see((long) lag);
        }
        Percentile exact = new Percentile().withEstimationType(Percentile.EstimationType.R_1);
        long width = LagMeter.RESOLUTION.toNanos();
        StepLag read = meter.read();
        assertThat(read.median().toNanos() - exact.evaluate(sample, 50)).isBetween(0.0, (double) width);
        assertThat(read.p99().toNanos() - exact.evaluate(sample, 99)).isBetween(0.0, (double) width);
        assertThat(read.overruns())
                .isEqualTo(Arrays.stream(sample)
                        .filter(lag -> (long) lag > 20_000_000)
                        .count());
    }
}
