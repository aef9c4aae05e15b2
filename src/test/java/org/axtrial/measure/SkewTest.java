package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;
import org.junit.jupiter.api.Test;

/** Two axes whose ways are known at every instant. Trapezoids and sines from kinematics. */
class SkewTest {

    private static final double SECONDS = 1.5;

    /** A move by trapezoid of speed. */
    private static double way(double t, double distance, double speed, double acceleration) {
        double ramp = Math.min(speed / acceleration, Math.sqrt(distance / acceleration));
        double peak = ramp * acceleration;
        double total = distance / peak + ramp;
        if (t <= 0) {
            return 0;
        }
        if (t >= total) {
            return distance;
        }
        if (t < ramp) {
            return acceleration * t * t / 2;
        }
        if (t < total - ramp) {
            return peak * (t - ramp / 2);
        }
        double left = total - t;
        return distance - acceleration * left * left / 2;
    }

    /** Samples a way as a slow link would: periods and round trips vary, the true instant lies anywhere in the round trip. */
    private static Trace sampled(DoubleUnaryOperator way, Unit unit, double step, long origin, Random random) {
        TraceRecorder recorder = new TraceRecorder(List.of(new Channel("position", unit, step)), 5_000_000);
        recorder.origin(origin);
        for (long at = (long) (random.nextDouble() * 5e6); at < SECONDS * 1e9; ) {
            long trip = 200_000L + random.nextInt(2_000_000);
            double read = (at + random.nextDouble() * trip) * 1e-9;
            recorder.add(at, at + trip, new double[] {Math.rint(way.applyAsDouble(read) / step) * step});
            at += Math.max(trip, 3_000_000L + random.nextInt(6_000_000)) + (random.nextInt(40) == 0 ? 20_000_000 : 0);
        }
        return recorder.trace();
    }

    @Test
    void whateverTheMotionTheIntervalHoldsTheTruth() {
        Random random = new Random(20261127);
        int missed = 0;
        double widest = 0;
        for (int i = 0; i < 2000; i++) {
            double acceleration = 5 + 45 * random.nextDouble();
            double delay = 0.02 * random.nextDouble();
            double slower = 1 - 0.1 * random.nextDouble();
            double speed = 0.5 + 2 * random.nextDouble();
            double ripple = 0.003 * random.nextDouble();
            double pulse = 2 * Math.PI * (1 + 6 * random.nextDouble());
            DoubleUnaryOperator one = t -> way(t - 0.1, 1, speed, acceleration);
            DoubleUnaryOperator other =
                    t -> way(t - 0.1 - delay, 1, speed * slower, acceleration) + ripple * (1 - Math.cos(pulse * t)) / 2;
            double most = acceleration + ripple * pulse * pulse / 2;
            Trace first = sampled(one, Unit.REVOLUTION, 1e-4, 0, random);
            Trace second = sampled(other, Unit.REVOLUTION, 1e-4, 0, random);

            Measurement skew = Skew.of(new Skew.Side(first, 0, most), new Skew.Side(second, 0, most), "position");

            double truth = 0;
            // Both still move at the end of some traces, so the truth is that of the time in which both were seen.
            double end = Math.min(first.time(first.size() - 1), second.time(second.size() - 1));
            for (double t = Math.max(first.time(0), second.time(0)); t < end; t += 5e-5) {
                truth = Math.max(truth, Math.abs(one.applyAsDouble(t) - other.applyAsDouble(t)));
            }
            missed += Math.abs(skew.value() - truth) > skew.expandedUncertainty() ? 1 : 0;
            widest = Math.max(widest, skew.expandedUncertainty());
        }
        assertThat(missed).as("of 2000 motions; the budget is a worst case").isZero();
        assertThat(widest).as("U of a skew of up to some hundredths").isLessThan(0.1);
    }

    @Test
    void aKnownDelayAtAKnownSpeedIsAKnownDistance() {
        Random random = new Random(1);
        Trace one = sampled(t -> 2 * t, Unit.MILLIMETRE, 1e-6, 0, random);
        Trace other = sampled(t -> 2 * (t - 0.01), Unit.MILLIMETRE, 1e-6, 0, random);

        Measurement skew = Skew.of(new Skew.Side(one, 0, 0), new Skew.Side(other, 0, 0), "position");

        // 2 mm/s for 10 ms.
        assertThat(skew.value()).isCloseTo(0.02, within(skew.expandedUncertainty()));
        assertThat(skew.unit()).isEqualTo(Unit.MILLIMETRE);
    }

    @Test
    void eachTraceMayHaveATimeZeroOfItsOwn() {
        Random random = new Random(2);
        Trace one = sampled(t -> 2 * t, Unit.MILLIMETRE, 1e-6, 0, random);
        Trace other = sampled(t -> 2 * t, Unit.MILLIMETRE, 1e-6, 300_000_000, random);

        Measurement skew = Skew.of(new Skew.Side(one, 0, 0), new Skew.Side(other, 0, 0), "position");

        assertThat(skew.value()).isLessThanOrEqualTo(skew.expandedUncertainty());
    }

    @Test
    void wayCountsFromTheStartOfEach() {
        Random random = new Random(3);
        Trace one = sampled(t -> 5 + t, Unit.MILLIMETRE, 1e-6, 0, random);
        Trace other = sampled(t -> -7 + t, Unit.MILLIMETRE, 1e-6, 0, random);

        assertThat(Skew.of(new Skew.Side(one, 5, 0), new Skew.Side(other, -7, 0), "position")
                        .value())
                .isLessThan(0.01);
    }

    @Test
    void whatWasNotAtTheSameTimeHasNoSkew() {
        Trace one = sampled(t -> t, Unit.MILLIMETRE, 1e-6, 0, new Random(4));
        TraceRecorder later = new TraceRecorder(List.of(new Channel("position", Unit.MILLIMETRE, 1e-6)), 5_000_000);
        later.origin(0);
        later.add(9_000_000_000L, 9_000_100_000L, new double[] {1});

        assertThat(Skew.of(new Skew.Side(one, 0, 0), new Skew.Side(later.trace(), 0, 0), "position")
                        .missing())
                .hasValueSatisfying(why -> assertThat(why).contains("not recorded at the same time"));
    }

    @Test
    void unitsThatDifferAreRefused() {
        Trace one = sampled(t -> t, Unit.MILLIMETRE, 1e-6, 0, new Random(5));
        Trace other = sampled(t -> t, Unit.REVOLUTION, 1e-6, 0, new Random(5));

        assertThatThrownBy(() -> Skew.of(new Skew.Side(one, 0, 0), new Skew.Side(other, 0, 0), "position"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("mm and rev");
    }
}
