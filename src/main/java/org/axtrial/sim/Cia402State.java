package org.axtrial.sim;

/** States of the CiA 402 state machine with the bits 0 … 6 of the statusword that tell them. */
enum Cia402State {
    NOT_READY_TO_SWITCH_ON(0x0000),
    SWITCH_ON_DISABLED(0x0040),
    READY_TO_SWITCH_ON(0x0021),
    SWITCHED_ON(0x0023),
    OPERATION_ENABLED(0x0027),
    QUICK_STOP_ACTIVE(0x0007),
    FAULT_REACTION_ACTIVE(0x000F),
    FAULT(0x0008);

    private final int bits;

    Cia402State(int bits) {
        this.bits = bits;
    }

    int bits() {
        return bits;
    }
}
