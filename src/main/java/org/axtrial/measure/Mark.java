package org.axtrial.measure;

/**
 * An instant that a measurement used, to be drawn on the plot of its trace.
 *
 * @param label short, for example {@code settled}
 * @param seconds on the time axis of the trace
 */
public record Mark(String label, double seconds) {}
