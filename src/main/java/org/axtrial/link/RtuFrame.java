package org.axtrial.link;

import java.util.Arrays;

/** Frames of serial Modbus: unit, PDU, check sum. Source: MODBUS over Serial Line V1.02, 2.5.1. */
final class RtuFrame {

    /** Unit, 253 bytes of PDU, two of check sum (MODBUS Application Protocol V1.1b3, 4.1). */
    static final int LARGEST = 256;

    private static final int CHECK = 2;
    /** Unit, function, MEI type, access, conformity, more follows, next object, number of objects. */
    private static final int IDENTIFICATION_HEAD = 8;

    private RtuFrame() {}

    static byte[] request(Request request, int unit) {
        byte[] pdu = request.pdu();
        byte[] frame = new byte[1 + pdu.length + CHECK];
        frame[0] = (byte) unit;
        System.arraycopy(pdu, 0, frame, 1, pdu.length);
        int crc = crc(frame, 1 + pdu.length);
        frame[1 + pdu.length] = (byte) crc;
        frame[2 + pdu.length] = (byte) (crc >>> 8);
        return frame;
    }

    /**
     * How many bytes the reply needs, as far as the bytes so far tell; no more than they tell, so that a byte of
     * whatever follows is never taken along.
     *
     * @throws InvalidReplyException if no reply begins like this
     */
    static int length(byte[] bytes, int have) throws InvalidReplyException {
        if (have < 3) {
            return 3;
        }
        int function = bytes[1] & 0xFF;
        int length = (function & Pdu.EXCEPTION) != 0
                ? 3 + CHECK
                : switch (function) {
                    case 3, 4 -> 3 + (bytes[2] & 0xFF) + CHECK;
                    case 6, 16 -> 6 + CHECK;
                    case Request.Identify.FUNCTION -> identificationLength(bytes, have);
                    default ->
                        throw new InvalidReplyException("function code " + function + ", which nobody asked for");
                };
        if (length > LARGEST) {
            throw new InvalidReplyException("a reply of " + length + " bytes, longer than " + LARGEST);
        }
        return length;
    }

    private static int identificationLength(byte[] bytes, int have) {
        int at = IDENTIFICATION_HEAD;
        if (have < at) {
            return at;
        }
        for (int left = bytes[at - 1] & 0xFF; left > 0; left--) {
            if (have < at + 2) {
                return at + 2;
            }
            at += 2 + (bytes[at + 1] & 0xFF);
            if (have < at) {
                return at;
            }
        }
        return at + CHECK;
    }

    /**
     * The PDU of a complete frame.
     *
     * @throws InvalidReplyException if the check sum is wrong
     */
    static byte[] pdu(byte[] frame) throws InvalidReplyException {
        int crc = crc(frame, frame.length - CHECK);
        int got = (frame[frame.length - 2] & 0xFF) | (frame[frame.length - 1] & 0xFF) << 8;
        if (got != crc) {
            throw new InvalidReplyException(String.format(
                    java.util.Locale.ROOT,
                    "check sum %04X instead of %04X; look at baud rate, parity, termination and shield",
                    got,
                    crc));
        }
        return Arrays.copyOfRange(frame, 1, frame.length - CHECK);
    }

    /** CRC-16, preset FFFFh, reflected polynomial A001h. Source: MODBUS over Serial Line V1.02, 6.2.2. */
    static int crc(byte[] bytes, int length) {
        int crc = 0xFFFF;
        for (int i = 0; i < length; i++) {
            crc ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) != 0 ? crc >>> 1 ^ 0xA001 : crc >>> 1;
            }
        }
        return crc;
    }
}
