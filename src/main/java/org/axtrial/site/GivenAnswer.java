package org.axtrial.site;

import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;

/**
 * One reading of an instrument that was written down beforehand.
 *
 * @param trial id of the trial
 * @param axis name of the axis
 * @param name what was read, as the script calls it
 * @param value finite
 * @param temperature of the scale of the instrument, °C
 * @param by who read it; empty string if the file does not say
 * @param attempt which try of the trial it is for, from 1
 * @param line where it stands in the file, from 1
 */
public record GivenAnswer(
        String trial,
        String axis,
        String name,
        Quantity value,
        OptionalDouble temperature,
        String by,
        int attempt,
        int line) {}
