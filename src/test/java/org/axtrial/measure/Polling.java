package org.axtrial.measure;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.random.RandomGenerator;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;

/**
 * Looks at known motions as the runner does: requests at an even period whose phase nobody knows, round trips of random
 * length, the drive read at a random moment within each, values rounded to steps. Time zero is the moment at which the
 * drive got the command; the trace counts from the middle of that exchange.
 *
 * @param random everything is drawn from it
 * @param period seconds between requests; a late reply delays the next request
 * @param shortest shortest round trip, seconds
 * @param longest longest round trip, seconds
 * @param stalls how often, 0 … below 1, the next request comes 2 to 10 periods late
 */
record Polling(RandomGenerator random, double period, double shortest, double longest, double stalls) {

    private static final long ORIGIN = 1_000_000_000_000L;

    /**
     * A signal of the axis.
     *
     * @param channel with the step it is rounded to
     * @param truth value over time in seconds, without noise
     * @param noise standard deviation of what each sample deviates from it
     * @param related how much of the deviation the next sample keeps, 0 … below 1
     */
    record Signal(Channel channel, DoubleUnaryOperator truth, double noise, double related) {

        static Signal of(String name, Unit unit, double quantum, DoubleUnaryOperator truth) {
            return new Signal(new Channel(name, unit, quantum), truth, 0, 0);
        }

        Signal noise(double deviation) {
            return new Signal(channel, truth, deviation, related);
        }

        Signal related(double share) {
            return new Signal(channel, truth, noise, share);
        }
    }

    /** A period of 5 to 20 ms and round trips of 0.5 to 4 ms. */
    static Polling usual(RandomGenerator random) {
        return new Polling(random, between(random, 0.005, 0.020), between(random, 0.0005, 0.0015), 0.004, 0);
    }

    /** Every request is sent when the reply to the one before is there. */
    static Polling backToBack(RandomGenerator random) {
        return new Polling(random, 0, 0.002, between(random, 0.003, 0.012), 0);
    }

    /** As usual, but the computer that polls is busy with other things now and then. */
    static Polling withGaps(RandomGenerator random) {
        Polling usual = usual(random);
        return new Polling(random, usual.period, usual.shortest, usual.longest, 0.05);
    }

    static double between(RandomGenerator random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** Samples requested from {@code from} on, the last reply at {@code to} or a little later; seconds. */
    Trace of(double from, double to, Signal... signals) {
        TraceRecorder recorder = new TraceRecorder(
                Arrays.stream(signals).map(Signal::channel).toList(), Math.max(1, Math.round(period * 1e9)));
        double command = roundTrip();
        recorder.origin(ORIGIN + Math.round((0.5 - random.nextDouble()) * command * 1e9));
        double[] deviation = new double[signals.length];
        for (int i = 0; i < deviation.length; i++) {
            deviation[i] = random.nextGaussian();
        }
        double[] row = new double[signals.length];
        double sent = from + period * random.nextDouble();
        while (sent < to) {
            double trip = roundTrip();
            double moment = sent + trip * random.nextDouble();
            for (int i = 0; i < row.length; i++) {
                row[i] = reading(signals[i], deviation[i], moment);
                double kept = signals[i].related();
                deviation[i] = kept * deviation[i] + Math.sqrt(1 - kept * kept) * random.nextGaussian();
            }
            recorder.add(ORIGIN + Math.round(sent * 1e9), ORIGIN + Math.round((sent + trip) * 1e9), row);
            sent = Math.max(sent + period, sent + trip);
            if (stalls > 0 && random.nextDouble() < stalls) {
                sent += period * between(random, 2, 10);
            }
        }
        return recorder.trace();
    }

    private double roundTrip() {
        return between(random, shortest, longest);
    }

    private static double reading(Signal signal, double deviation, double moment) {
        double exact = signal.truth().applyAsDouble(moment) + signal.noise() * deviation;
        double quantum = signal.channel().quantum();
        return quantum > 0 ? Math.rint(exact / quantum) * quantum : exact;
    }
}
