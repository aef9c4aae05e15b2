package org.axtrial.measure;

import org.axtrial.quantity.Dimension;

/** Sentences for verdicts that follow from the value and not from its coarseness. */
final class Reasons {

    private Reasons() {}

    /** Why a value outside the limits fails. */
    static String outside(Measurement measured, Criterion criterion) {
        Printed printed = new Printed(measured, criterion);
        boolean above = criterion.upper().isPresent()
                && measured.value() > criterion.upper().getAsDouble();
        double limit =
                above ? criterion.upper().getAsDouble() : criterion.lower().orElseThrow();
        double distance = Math.abs(measured.value() - limit);
        return printed.valueText() + " is " + printed.text(distance) + (above ? " above" : " below") + " the limit of "
                + printed.text(limit);
    }

    /** Why a bound leaves the verdict open. */
    static String open(Measurement measured, Criterion criterion) {
        String value = new Printed(measured, criterion).text(measured.value());
        if (measured.bound() == Measurement.Bound.AT_LEAST) {
            return measured.name() + " is only known to be at least " + value
                    + ", because the record ended before it was over; record longer";
        }
        String faster = measured.unit().dimension() == Dimension.TIME
                ? "sample faster, or use a value latched by the drive"
                : "sample faster";
        return measured.name() + " is only known to be at most " + value
                + ", because it was over before the first sample could see it; " + faster;
    }
}
