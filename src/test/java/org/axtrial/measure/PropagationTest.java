package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import java.util.Random;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;
import org.junit.jupiter.api.Test;

/**
 * The budgets against a propagation of distributions (JCGM 101:2008): the same motion is measured many times with random
 * phase of the samples, random instant of the look within its round trip and quantised position, from a fixed seed.
 */
class PropagationTest {

    private static final int TRIALS = 20_000;

    private final Random random = new Random(20_080_101);

    /** How the errors of many measurements compare with what their budgets say. */
    private static final class Errors {
        private double squares;
        private double stated;
        private int covered;

        void add(Measurement measured, double truth) {
            double error = measured.value() - truth;
            squares += error * error;
            stated += measured.standardUncertainty() * measured.standardUncertainty();
            covered += Math.abs(error) <= measured.expandedUncertainty() ? 1 : 0;
        }

        double statedToSeen() {
            return Math.sqrt(stated / squares);
        }

        double coverage() {
            return (double) covered / TRIALS;
        }
    }

    /** Looks at a motion every {@code period} seconds; the drive answers at any moment of the round trip. */
    private Trace look(
            double quantum,
            double period,
            double roundTrip,
            double end,
            java.util.function.DoubleUnaryOperator motion) {
        TraceRecorder recorder =
                new TraceRecorder(List.of(new Channel(X, Unit.MILLIMETRE, quantum)), Math.round(period * 1e9));
        recorder.origin(0);
        double phase = random.nextDouble() * period;
        for (double t = phase; t < end; t += period) {
            double trip = roundTrip * (0.5 + random.nextDouble());
            long sent = Math.round(t * 1e9);
            long replied = sent + Math.round(trip * 1e9);
            double instant = t + trip * random.nextDouble();
            recorder.add(sent, replied, new double[] {Math.rint(motion.applyAsDouble(instant) / quantum) * quantum});
        }
        return recorder.trace();
    }

    // At 1 % of statistical error in 20 000 trials, stated and seen may differ by that.
    @Test
    void meanSpeed() {
        Errors errors = new Errors();
        for (int i = 0; i < TRIALS; i++) {
            double speed = 40 + random.nextDouble();
            double start = random.nextDouble();
            Trace trace = look(0.02, 0.02, 0.002, 0.5, t -> start + speed * t);
            errors.add(MeanSpeed.of(trace, X, 0.05, 0.45), speed);
        }
        assertThat(errors.statedToSeen()).isBetween(0.98, 1.02);
        assertThat(errors.coverage()).isBetween(0.94, 0.98);
    }

    // The entry lies anywhere between two samples, so that the error is nearly rectangular and always within U.
    @Test
    void settlingTime() {
        Errors errors = new Errors();
        for (int i = 0; i < TRIALS; i++) {
            double approach = 80 + 10 * random.nextDouble();
            double start = -10 - random.nextDouble();
            Trace trace = look(0.001, 0.01, 0.002, 0.3, t -> Math.min(0, start + approach * t));
            errors.add(Settling.of(trace, X, 0, 0.5), (-0.5 - start) / approach);
        }
        assertThat(errors.statedToSeen()).isBetween(0.97, 1.1);
        assertThat(errors.coverage()).isGreaterThan(0.95);
    }
}
