package org.axtrial.sim;

/** The switches of an axis, with their bits in the digital inputs (CiA 402 object 60FDh). */
public enum SwitchInput {
    NEGATIVE_LIMIT(0),
    POSITIVE_LIMIT(1),
    HOME(2);

    private final int mask;

    SwitchInput(int bit) {
        this.mask = 1 << bit;
    }

    int mask() {
        return mask;
    }
}
