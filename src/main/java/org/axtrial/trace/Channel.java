package org.axtrial.trace;

import org.axtrial.quantity.Unit;

/**
 * One column of a trace.
 *
 * @param name the signal, for example {@code position}
 * @param unit unit of its values
 * @param quantum smallest step the drive can report, in {@code unit}; 0 when unknown
 */
public record Channel(String name, Unit unit, double quantum) {

    public Channel {
        if (!(quantum >= 0) || Double.isInfinite(quantum)) {
            throw new IllegalArgumentException(name + ": quantum must be finite and not negative, got " + quantum);
        }
    }
}
