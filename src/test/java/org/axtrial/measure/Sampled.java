package org.axtrial.measure;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;

/** Traces with one channel {@code x} for tests: a known function of time, sampled and quantised. */
record Sampled(Unit unit, double quantum, double period, double roundTrip) {

    static final String X = "x";

    static Sampled every(double period) {
        return new Sampled(Unit.DEGREE, 0, period, 0);
    }

    Sampled in(Unit other) {
        return new Sampled(other, quantum, period, roundTrip);
    }

    Sampled quantum(double step) {
        return new Sampled(unit, step, period, roundTrip);
    }

    Sampled roundTrip(double seconds) {
        return new Sampled(unit, quantum, period, seconds);
    }

    /** Samples whose middles lie at {@code from}, {@code from} + period, … up to {@code to}; time zero is the command. */
    Trace of(double from, double to, DoubleUnaryOperator function) {
        TraceRecorder recorder = recorder();
        long count = Math.round((to - from) / period);
        for (long i = 0; i <= count; i++) {
            double time = from + i * period;
            double exact = function.applyAsDouble(time);
            add(recorder, time, quantum > 0 ? Math.rint(exact / quantum) * quantum : exact);
        }
        return recorder.trace();
    }

    /** The given values at {@code from}, {@code from} + period, … */
    Trace values(double from, double... values) {
        TraceRecorder recorder = recorder();
        for (int i = 0; i < values.length; i++) {
            add(recorder, from + i * period, values[i]);
        }
        return recorder.trace();
    }

    /** Pairs of time and value. */
    Trace points(double... timeAndValue) {
        TraceRecorder recorder = recorder();
        for (int i = 0; i < timeAndValue.length; i += 2) {
            add(recorder, timeAndValue[i], timeAndValue[i + 1]);
        }
        return recorder.trace();
    }

    private TraceRecorder recorder() {
        TraceRecorder recorder =
                new TraceRecorder(List.of(new Channel(X, unit, quantum)), Math.max(1, Math.round(period * 1e9)));
        recorder.origin(1_000_000_000_000L);
        return recorder;
    }

    private void add(TraceRecorder recorder, double time, double value) {
        long middle = 1_000_000_000_000L + Math.round(time * 1e9);
        long half = Math.round(roundTrip / 2 * 1e9);
        recorder.add(middle - half, middle + half, new double[] {value});
    }
}
