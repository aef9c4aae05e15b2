package org.axtrial.link;

import java.util.Locale;

/** What the exception codes mean for somebody at the machine. Source: MODBUS Application Protocol V1.1b3, section 7. */
final class ExceptionCode {

    /** The drive has accepted the request and is still busy with it. */
    static final int ACKNOWLEDGE = 0x05;
    /** The gateway passed the request on and got no answer. */
    static final int TARGET_SILENT = 0x0B;

    private ExceptionCode() {}

    /** Whether the drive may have acted on a write although it answered with this code. */
    static boolean leavesOutcomeOpen(int code) {
        return code == ACKNOWLEDGE || code == TARGET_SILENT;
    }

    static String text(int code, Request request) {
        String registers = request.registers();
        String meaning = switch (code) {
            case 0x01 ->
                "illegal function: the drive does not know function " + request.function() + " for " + registers
                        + "; it may want another function code, or has writing locked";
            case 0x02 ->
                "illegal data address: " + registers + (request.count() == 1 ? " is" : " are")
                        + " not in the drive's map; the map may be one-based";
            case 0x03 ->
                "illegal data value: the drive does not take this request for " + registers
                        + "; it may allow fewer registers in one request, or refuse the value";
            case 0x04 ->
                "server device failure: the drive failed while it worked on " + registers
                        + "; look at its state and its fault code";
            case 0x05 ->
                "acknowledge: the drive has accepted the request for " + registers
                        + " and needs longer; look at it before going on";
            case 0x06 ->
                "server device busy: the drive has no time for " + registers
                        + "; another master or a long job may hold it";
            case 0x08 ->
                "memory parity error: the drive could not read its memory for " + registers
                        + "; have the drive checked";
            case 0x0A ->
                "gateway path unavailable: the gateway cannot reach the unit for " + registers
                        + "; check its port set-up and load";
            case 0x0B ->
                "gateway target device failed to respond: the gateway got no answer for " + registers
                        + "; check unit id, wiring and power of the drive";
            default -> "a code that the Modbus specification does not define, for " + registers;
        };
        return String.format(Locale.ROOT, "%02X %s", code, meaning);
    }
}
