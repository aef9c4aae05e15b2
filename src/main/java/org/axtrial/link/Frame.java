package org.axtrial.link;

import java.nio.ByteBuffer;
import java.util.Arrays;

/** Frames of Modbus TCP: the MBAP header before each message. Source: MODBUS Messaging on TCP/IP V1.0b, 3.1.3. */
final class Frame {

    /** Transaction id, protocol id, length. */
    static final int HEADER = 6;
    /** The largest frame on TCP: 253 bytes of PDU and 7 of header (MODBUS Application Protocol V1.1b3, 4.1). */
    static final int LARGEST = 260;

    private static final int UNIT = 6;
    private static final int FUNCTION = 7;

    private Frame() {}

    static byte[] request(Request request, int transaction, int unit) {
        byte[] pdu = request.pdu();
        return ByteBuffer.allocate(FUNCTION + pdu.length)
                .putShort((short) transaction)
                .putShort((short) 0)
                .putShort((short) (1 + pdu.length))
                .put((byte) unit)
                .put(pdu)
                .array();
    }

    /**
     * How long the frame is that begins with this header.
     *
     * @throws InvalidReplyException if this is not the header of a Modbus reply
     */
    static int length(byte[] header) throws InvalidReplyException {
        int protocol = unsignedShort(header, 2);
        int length = unsignedShort(header, 4);
        if (protocol != 0) {
            throw new InvalidReplyException(
                    "protocol id " + protocol + " instead of 0; the peer does not speak Modbus");
        }
        if (length < 3 || length > LARGEST - HEADER) {
            throw new InvalidReplyException("length field " + length + " outside 3 … " + (LARGEST - HEADER));
        }
        return HEADER + length;
    }

    /**
     * What a complete reply frame says.
     *
     * @throws InvalidReplyException if it is not the reply to this request
     */
    static Pdu.Answer answer(Request request, int transaction, int unit, byte[] frame) throws InvalidReplyException {
        Pdu.expect("transaction id", transaction, unsignedShort(frame, 0));
        Pdu.expect("unit id", unit, frame[UNIT] & 0xFF);
        return Pdu.answer(request, Arrays.copyOfRange(frame, FUNCTION, frame.length));
    }

    private static int unsignedShort(byte[] bytes, int at) {
        return (bytes[at] & 0xFF) << 8 | (bytes[at + 1] & 0xFF);
    }
}
