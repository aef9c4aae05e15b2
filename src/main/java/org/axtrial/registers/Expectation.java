package org.axtrial.registers;

import java.util.OptionalDouble;

/**
 * What a description expects a value to read, so that the register map can be proven before anything moves. In the unit of
 * the signal, scaled.
 *
 * @param constant what it always reads; empty if it may change
 * @param lowest lowest plausible value, itself plausible; empty if the description does not say
 * @param highest highest plausible value, itself plausible; there when {@code lowest} is
 */
public record Expectation(OptionalDouble constant, OptionalDouble lowest, OptionalDouble highest) {

    public Expectation {
        if (lowest.isPresent() != highest.isPresent()) {
            throw new IllegalArgumentException("a plausible range has two ends, got one");
        }
        if (lowest.isPresent() && !(lowest.getAsDouble() < highest.getAsDouble())) {
            throw new IllegalArgumentException(
                    "a plausible range grows, got " + lowest.getAsDouble() + " … " + highest.getAsDouble());
        }
    }

    /** Always that value. */
    public static Expectation of(double constant) {
        return new Expectation(OptionalDouble.of(constant), OptionalDouble.empty(), OptionalDouble.empty());
    }

    /** Anything from one value to the other. */
    public static Expectation between(double lowest, double highest) {
        return new Expectation(OptionalDouble.empty(), OptionalDouble.of(lowest), OptionalDouble.of(highest));
    }

    /** Whether words read by a layout show what is expected. */
    public boolean isMetBy(SignalSpec signal, int[] words) {
        if (constant.isPresent()) {
            return new DriveDescription.IdentityConstant(signal, constant.getAsDouble()).isShownBy(words);
        }
        double value = RegisterCodec.decode(signal, words);
        return Double.isFinite(value)
                && (lowest.isEmpty() || value >= lowest.getAsDouble())
                && (highest.isEmpty() || value <= highest.getAsDouble());
    }
}
