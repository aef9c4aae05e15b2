package org.axtrial.measure;

import org.axtrial.quantity.Unit;

/** How far a homing moved the zero of the position register. */
public final class NewZero {

    private static final String DEFINITION =
            "Reading of the position register after the homing minus the reading that it would have had without, told by"
                    + " the internal position of the drive, which homing does not change.";

    private NewZero() {}

    /**
     * The change of the zero.
     *
     * <p>Uncertainty: each of the two positions is known to one count, q/√12, before and after.
     *
     * @param change in the given unit
     * @param count one count of the register in the given unit, positive
     */
    public static Measurement of(double change, double count, Unit unit) {
        Draft draft = new Draft("change of the zero", DEFINITION, unit).resolution(count);
        String how = "one step is " + Printed.brief(count, unit);
        return draft.add(Contribution.quantisation("quantisation of the position", how, count))
                .add(Contribution.quantisation("quantisation of the internal position", how, count))
                .value(change);
    }
}
