package org.axtrial.measure;

import java.util.OptionalDouble;
import org.axtrial.quantity.Dimension;

/** Sentences for verdicts that follow from the value and not from its coarseness. */
final class Reasons {

    private Reasons() {}

    /** Why a value outside the limits fails. */
    static String outside(Measurement measured, Criterion criterion, double margin, double guardBand) {
        return place(new Printed(measured, criterion, OptionalDouble.of(guardBand)), measured, criterion, margin);
    }

    /** Why a value near a limit, on whichever side, is not enough. */
    static String guarded(Measurement measured, Criterion criterion, double margin, double guardBand) {
        Printed printed = new Printed(measured, criterion, OptionalDouble.of(guardBand));
        return place(printed, measured, criterion, margin) + ", which is less than the guard band of "
                + printed.text(guardBand) + "; measure with less uncertainty to tell";
    }

    /** On which side of the nearer limit the value lies, and by how much. */
    private static String place(Printed printed, Measurement measured, Criterion criterion, double margin) {
        double upper = criterion.upper().orElse(Double.POSITIVE_INFINITY);
        boolean nearUpper = upper - measured.value() == margin;
        double limit = nearUpper ? upper : criterion.lower().orElseThrow();
        String side = nearUpper == margin >= 0 ? " below" : " above";
        return printed.valueText() + " is " + printed.text(Math.abs(margin)) + side + " the limit of "
                + printed.text(limit);
    }

    /** Why a bound leaves the verdict open. */
    static String open(Measurement measured, Criterion criterion) {
        String value = new Printed(measured, criterion, OptionalDouble.empty()).text(measured.value());
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
