package org.axtrial.plant;

/** What physical parameters must be; the offending value stands in the message. */
final class Require {

    private Require() {}

    static void positive(String what, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must be positive and finite, got " + value);
        }
    }

    static void notNegative(String what, double value) {
        if (!(value >= 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must be finite and not negative, got " + value);
        }
    }

    static void finite(String what, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(what + " must be finite, got " + value);
        }
    }
}
