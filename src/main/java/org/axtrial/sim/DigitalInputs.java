package org.axtrial.sim;

/** The switches of an axis as the drive sees them. */
final class DigitalInputs {

    /** Where no shaft comes. */
    private static final SimulationSpec.SwitchRange NOWHERE =
            new SimulationSpec.SwitchRange(Double.MAX_VALUE / 16, Double.MAX_VALUE / 8, 0);

    private final TravelSwitch negative;
    private final TravelSwitch positive;
    private final TravelSwitch home;
    /** Whether a switch is there, or shows something all the same: every step asks. */
    private boolean any;

    DigitalInputs(SimulationSpec.Reference reference) {
        this.negative = new TravelSwitch(reference.negativeLimit().orElse(NOWHERE));
        this.positive = new TravelSwitch(reference.positiveLimit().orElse(NOWHERE));
        this.home = new TravelSwitch(reference.home().orElse(NOWHERE));
        this.any = reference.negativeLimit().isPresent()
                || reference.positiveLimit().isPresent()
                || reference.home().isPresent();
    }

    /** Sees the shaft at an angle in rad. */
    void see(double angle) {
        if (!any) {
            return;
        }
        negative.see(angle);
        positive.see(angle);
        home.see(angle);
    }

    private TravelSwitch at(SwitchInput input) {
        return switch (input) {
            case NEGATIVE_LIMIT -> negative;
            case POSITIVE_LIMIT -> positive;
            case HOME -> home;
        };
    }

    void become(SwitchInput input, SwitchCondition condition) {
        any = true;
        at(input).become(condition);
    }

    void hold(SwitchInput input, boolean held) {
        any = true;
        at(input).hold(held);
    }

    boolean active(SwitchInput input) {
        return at(input).active();
    }

    /** Whether the limit switch towards which a signed direction leads is active. */
    boolean endOfTravel(double direction) {
        if (!any) {
            return false;
        }
        return direction > 0 ? positive.active() : direction < 0 && negative.active();
    }

    /** Digital inputs, CiA 402 object 60FDh. */
    int word() {
        int word = 0;
        word |= negative.active() ? SwitchInput.NEGATIVE_LIMIT.mask() : 0;
        word |= positive.active() ? SwitchInput.POSITIVE_LIMIT.mask() : 0;
        word |= home.active() ? SwitchInput.HOME.mask() : 0;
        return word;
    }
}
