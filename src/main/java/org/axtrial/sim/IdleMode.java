package org.axtrial.sim;

/** No mode (0): the axis is held where it is. */
final class IdleMode extends Cia402Mode {

    IdleMode(Firmware firmware) {
        super(firmware);
    }

    @Override
    boolean reached() {
        return servo.inPosition();
    }

    @Override
    int statusBits() {
        return servo.leftBehind() ? BIT_13 : 0;
    }
}
