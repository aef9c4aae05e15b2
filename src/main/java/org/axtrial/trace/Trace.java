package org.axtrial.trace;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Time-stamped samples of the signals of one axis. Immutable. Times are in seconds after {@link #originNanos}, the
 * moment the command was sent; samples before it have negative times.
 */
public final class Trace {

    private final List<Channel> channels;
    private final long originNanos;
    private final long periodNanos;
    private final long[] sent;
    private final long[] replied;
    private final double[][] values;
    private final List<LatchedPeak> latched;

    Trace(List<Channel> channels, long originNanos, long periodNanos, long[] sent, long[] replied, double[][] values) {
        this(channels, originNanos, periodNanos, sent, replied, values, List.of());
    }

    private Trace(
            List<Channel> channels,
            long originNanos,
            long periodNanos,
            long[] sent,
            long[] replied,
            double[][] values,
            List<LatchedPeak> latched) {
        this.channels = List.copyOf(channels);
        this.originNanos = originNanos;
        this.periodNanos = periodNanos;
        this.sent = sent;
        this.replied = replied;
        this.values = values;
        this.latched = List.copyOf(latched);
    }

    /** The same samples with the peaks that the drive has latched meanwhile. */
    public Trace withLatched(List<LatchedPeak> peaks) {
        return new Trace(channels, originNanos, periodNanos, sent, replied, values, peaks);
    }

    /**
     * What the drive has latched from the command to the last sample; empty for a drive that latches nothing. A part of the
     * trace, and a trace with another zero, have none, because a latch tells nothing of a part of its time.
     */
    public List<LatchedPeak> latched() {
        return latched;
    }

    public List<Channel> channels() {
        return channels;
    }

    /** Time zero on the clock of the axis, nanoseconds. */
    public long originNanos() {
        return originNanos;
    }

    /** The ordered sample period in seconds. */
    public double orderedPeriod() {
        return periodNanos / 1e9;
    }

    public int size() {
        return sent.length;
    }

    // Divided by 1e9 and not multiplied by 1e-9, so that a sample at 300 ms is at 0.3 and not one bit beside it.

    /** Best estimate of the moment of sample {@code i}: the middle between request and reply, seconds after origin. */
    public double time(int i) {
        return ((sent[i] - originNanos) + (replied[i] - sent[i]) / 2.0) / 1e9;
    }

    /** Half the round trip of sample {@code i}, seconds: the sample lies within ± this of {@link #time}. */
    public double timeHalfWidth(int i) {
        return (replied[i] - sent[i]) / 2.0 / 1e9;
    }

    public boolean has(String channel) {
        return indexOf(channel) >= 0;
    }

    /**
     * The description of a column.
     *
     * @throws IllegalArgumentException if the trace has no such channel
     */
    public Channel channel(String name) {
        return channels.get(require(name));
    }

    /** Value of a channel at sample {@code i}, in the channel's unit. */
    public double value(String channel, int i) {
        return values[require(channel)][i];
    }

    /** All values of a channel, a copy. */
    public double[] values(String channel) {
        return values[require(channel)].clone();
    }

    /** All sample times in seconds after origin. */
    public double[] times() {
        double[] times = new double[size()];
        Arrays.setAll(times, this::time);
        return times;
    }

    /** Largest distance between neighbouring samples in seconds; empty for fewer than two samples. */
    public OptionalDouble worstPeriod() {
        double worst = 0;
        for (int i = 1; i < size(); i++) {
            worst = Math.max(worst, time(i) - time(i - 1));
        }
        return size() < 2 ? OptionalDouble.empty() : OptionalDouble.of(worst);
    }

    /** Mean distance between neighbouring samples in seconds; empty for fewer than two samples. */
    public OptionalDouble meanPeriod() {
        return size() < 2 ? OptionalDouble.empty() : OptionalDouble.of((time(size() - 1) - time(0)) / (size() - 1));
    }

    /** Where samples are missing, in the order of time. */
    public List<Gap> gaps() {
        return Gap.in(times());
    }

    /** The part of the trace with times from {@code from} to {@code to} inclusive, seconds; the origin stays. */
    public Trace between(double from, double to) {
        int first = 0;
        while (first < size() && time(first) < from) {
            first++;
        }
        int last = size();
        while (last > first && time(last - 1) > to) {
            last--;
        }
        int begin = first;
        int end = last;
        double[][] part = Arrays.stream(values)
                .map(column -> Arrays.copyOfRange(column, begin, end))
                .toArray(double[][]::new);
        return new Trace(
                channels,
                originNanos,
                periodNanos,
                Arrays.copyOfRange(sent, begin, end),
                Arrays.copyOfRange(replied, begin, end),
                part);
    }

    /**
     * The same samples with time zero at another moment, for example that of a stop.
     *
     * @param seconds the moment on the time axis so far, rounded to the nanosecond
     */
    public Trace withZeroAt(double seconds) {
        return new Trace(channels, originNanos + Math.round(seconds * 1e9), periodNanos, sent, replied, values);
    }

    private int require(String name) {
        int index = indexOf(name);
        if (index < 0) {
            throw new IllegalArgumentException("the trace has no channel \"" + name + "\"; it has "
                    + channels.stream().map(Channel::name).toList());
        }
        return index;
    }

    private int indexOf(String name) {
        for (int i = 0; i < channels.size(); i++) {
            if (channels.get(i).name().equals(name)) {
                return i;
            }
        }
        return -1;
    }
}
