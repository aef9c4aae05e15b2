package org.axtrial.sim;

/** What the bits 0 … 3 and 7 of a controlword order (IEC 61800-7-201, table of device control commands). */
enum Cia402Command {
    SHUTDOWN,
    SWITCH_ON,
    ENABLE_OPERATION,
    DISABLE_VOLTAGE,
    QUICK_STOP,
    NONE;

    static Cia402Command of(int controlword) {
        if ((controlword & 0x82) == 0x00) {
            return DISABLE_VOLTAGE;
        }
        if ((controlword & 0x86) == 0x02) {
            return QUICK_STOP;
        }
        if ((controlword & 0x87) == 0x06) {
            return SHUTDOWN;
        }
        if ((controlword & 0x8F) == 0x07) {
            return SWITCH_ON;
        }
        return (controlword & 0x8F) == 0x0F ? ENABLE_OPERATION : NONE;
    }
}
