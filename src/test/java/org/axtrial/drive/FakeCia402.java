package org.axtrial.drive;

import org.axtrial.time.VirtualTime;

/** Just enough firmware: the state machine, the mode display, and the set-point hand-shake after a few looks. */
class FakeCia402 extends FakeLink {

    /** Control words that this drive does not act upon. */
    int deafTo = -1;
    /** Looks at the status word before a set-point is acknowledged. */
    int looksToAcknowledge = 2;
    /** Runs on the first look after a set-point came. */
    Runnable onFirstLook = () -> {};

    private int state = 0x40;
    private int looks = NEVER;
    private int acknowledged;
    private int lastControl;

    FakeCia402(VirtualTime time) {
        super(time);
        show();
    }

    void state(int statusBits) {
        state = statusBits;
        show();
    }

    @Override
    void written(int address, int[] words) {
        if (address == Maps.MODE) {
            registers[Maps.MODE_DISPLAY] = words[0];
        }
        if (address != Maps.CONTROL || words[0] == deafTo) {
            return;
        }
        int control = words[0];
        transition(control);
        if (state == 0x27 && (control & 0x10) != 0 && (lastControl & 0x10) == 0) {
            looks = 0;
        }
        if ((control & 0x10) == 0) {
            looks = NEVER;
            acknowledged = 0;
        }
        lastControl = control;
        show();
    }

    private void transition(int control) {
        if ((state & 0x4F) == 0x08) {
            boolean edge = (control & 0x80) != 0 && (lastControl & 0x80) == 0;
            state = edge ? 0x40 : state;
        } else if ((control & 0x02) == 0) {
            state = 0x40;
        } else if ((control & 0x07) == 0x06 && state != 0x07) {
            state = 0x21;
        } else if ((control & 0x0F) == 0x07 && (state == 0x21 || state == 0x27)) {
            state = 0x23;
        } else if ((control & 0x0F) == 0x0F && (state == 0x23 || state == 0x21)) {
            state = 0x27;
        }
    }

    @Override
    void beforeRead(int address, int count) {
        if (address != Maps.STATUS || looks == NEVER) {
            return;
        }
        if (looks++ == 0) {
            onFirstLook.run();
        }
        if (looks != NEVER && looks >= looksToAcknowledge) {
            acknowledged = 0x1000;
        }
        show();
    }

    private void show() {
        registers[Maps.STATUS] = state | acknowledged;
    }
}
