package org.axtrial.trace;

import java.util.Arrays;
import java.util.List;

/** Collects samples while an axis moves. Used by one thread. Grows by doubling, so memory follows the samples kept. */
public final class TraceRecorder {

    private final List<Channel> channels;
    private final long periodNanos;
    private long[] sent = new long[256];
    private long[] replied = new long[256];
    private final double[][] values;
    private int size;
    private long originNanos;
    private boolean originSet;

    /**
     * @param channels the columns
     * @param periodNanos ordered sample period, positive
     */
    public TraceRecorder(List<Channel> channels, long periodNanos) {
        if (periodNanos <= 0) {
            throw new IllegalArgumentException("the sample period must be positive, got " + periodNanos + " ns");
        }
        this.channels = List.copyOf(channels);
        this.periodNanos = periodNanos;
        this.values = new double[channels.size()][256];
    }

    /** Sets time zero, the moment the command was sent. Without it the first sample is time zero. */
    public void origin(long nanos) {
        originNanos = nanos;
        originSet = true;
    }

    /**
     * Adds one sample.
     *
     * @param row one value for each channel, in channel order, finite
     * @throws IllegalArgumentException if the row is of the wrong length, not finite, or older than the last one
     */
    public void add(long sentNanos, long repliedNanos, double[] row) {
        if (row.length != channels.size()) {
            throw new IllegalArgumentException("a row needs " + channels.size() + " values, got " + row.length);
        }
        if (repliedNanos < sentNanos || (size > 0 && sentNanos < sent[size - 1])) {
            throw new IllegalArgumentException("samples must come in order of time");
        }
        for (int c = 0; c < row.length; c++) {
            if (!Double.isFinite(row[c])) {
                throw new IllegalArgumentException(channels.get(c).name() + " is not finite: " + row[c]);
            }
        }
        if (size == sent.length) {
            grow();
        }
        sent[size] = sentNanos;
        replied[size] = repliedNanos;
        for (int c = 0; c < row.length; c++) {
            values[c][size] = row[c];
        }
        size++;
    }

    public int size() {
        return size;
    }

    /** What has been collected so far. */
    public Trace trace() {
        double[][] copy =
                Arrays.stream(values).map(column -> Arrays.copyOf(column, size)).toArray(double[][]::new);
        long origin = originSet || size == 0 ? originNanos : sent[0];
        return new Trace(channels, origin, periodNanos, Arrays.copyOf(sent, size), Arrays.copyOf(replied, size), copy);
    }

    private void grow() {
        sent = Arrays.copyOf(sent, size * 2);
        replied = Arrays.copyOf(replied, size * 2);
        for (int c = 0; c < values.length; c++) {
            values[c] = Arrays.copyOf(values[c], size * 2);
        }
    }
}
