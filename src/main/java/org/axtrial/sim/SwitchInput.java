package org.axtrial.sim;

/** The switches of an axis, in the order of their bits in the digital inputs (CiA 402 object 60FDh). */
public enum SwitchInput {
    NEGATIVE_LIMIT,
    POSITIVE_LIMIT,
    HOME;

    int bit() {
        return 1 << ordinal();
    }
}
