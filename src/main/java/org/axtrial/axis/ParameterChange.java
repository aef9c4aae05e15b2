package org.axtrial.axis;

import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * A parameter of the drive that a trial changes.
 *
 * @param axis name of the axis
 * @param name as the drive description declares it
 * @param unit unit of both values
 * @param found value before the trial touched it
 * @param written value that the trial wants, as near as the register can hold it
 * @param kept whether it stays after the trial; else {@code found} is put back
 */
public record ParameterChange(String axis, String name, Unit unit, double found, double written, boolean kept) {

    private static final int DIGITS = 9;

    /** Whether it is the value that was found. */
    public boolean isNone() {
        return found == written;
    }

    /** {@code positionWindow from 10 count to 5 count}. */
    public String printed() {
        return name + " from " + printed(found) + " to " + printed(written);
    }

    /** The value before the trial, with its unit. */
    public String printedFound() {
        return printed(found);
    }

    /** The value of the trial, with its unit. */
    public String printedWritten() {
        return printed(written);
    }

    private String printed(double value) {
        return new Quantity(value, unit).printed(DIGITS);
    }
}
