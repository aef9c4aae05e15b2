package org.axtrial.evidence;

import java.time.Instant;
import java.util.Optional;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * A parameter of the drive that a trial changed.
 *
 * @param at just before it was written
 * @param name as the drive description declares it
 * @param unit symbol of the unit of both values
 * @param found value before the trial
 * @param written value that was written
 * @param kept whether the script meant it to stay
 * @param end how it was put back; empty if it was not, or was meant to stay
 */
public record ParameterChange(
        Instant at, String name, String unit, double found, double written, boolean kept, Optional<PutBack> end) {

    private static final int DIGITS = 9;

    /**
     * The last attempt to put it back.
     *
     * @param trouble why it failed; empty if the drive showed again what was found
     */
    public record PutBack(Instant at, Optional<String> trouble) {}

    /** Whether the drive may hold the value of the trial although it should not. */
    public boolean leftBehind() {
        return !kept && end.map(last -> last.trouble().isPresent()).orElse(true);
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
        return Unit.of(unit)
                .map(known -> new Quantity(value, known).printed(DIGITS))
                .orElse(value + " " + unit);
    }

    ParameterChange ended(Instant when, Optional<String> trouble) {
        return new ParameterChange(at, name, unit, found, written, kept, Optional.of(new PutBack(when, trouble)));
    }

    ParameterChange withoutStamps() {
        return new ParameterChange(
                Instant.EPOCH,
                name,
                unit,
                found,
                written,
                kept,
                end.map(last -> new PutBack(Instant.EPOCH, last.trouble())));
    }
}
