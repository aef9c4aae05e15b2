package org.axtrial.link;

import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterResponse;
import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/**
 * Requests to bytes and bytes to checked replies: the MBAP header (MODBUS Messaging on TCP/IP V1.0b, 3.1.3) and the
 * checks around the message classes of the protocol library, which checks neither transaction, unit, function nor
 * length of a reply by itself.
 */
final class Frame {

    /** Transaction id, protocol id, length. */
    static final int HEADER = 6;
    /** The largest frame on TCP: 253 bytes of PDU and 7 of header (MODBUS Application Protocol V1.1b3, 4.1). */
    static final int LARGEST = 260;

    private static final int UNIT = 6;
    private static final int FUNCTION = 7;
    private static final int DATA = 8;
    private static final int EXCEPTION = 0x80;

    private Frame() {}

    static byte[] request(Request request, int transaction, int unit) {
        ModbusRequest message = request.message();
        byte[] data = message.getMessage();
        return ByteBuffer.allocate(DATA + data.length)
                .putShort((short) transaction)
                .putShort((short) 0)
                .putShort((short) (2 + data.length))
                .put((byte) unit)
                .put((byte) message.getFunctionCode())
                .put(data)
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
     * The words of a complete reply frame, empty for a write; or the exception code that the drive answered.
     *
     * @throws InvalidReplyException if it is not the reply to this request
     */
    static Answer answer(Request request, int transaction, int unit, byte[] frame) throws InvalidReplyException {
        expect("transaction id", transaction, unsignedShort(frame, 0));
        expect("unit id", unit, frame[UNIT] & 0xFF);
        int function = frame[FUNCTION] & 0xFF;
        if (function == (request.function() | EXCEPTION)) {
            expect("length of an exception reply", DATA + 1, frame.length);
            return new Answer(new int[0], frame[DATA] & 0xFF);
        }
        expect("function code", request.function(), function);
        if (!request.writes()) {
            expect("byte count", 2 * request.count(), frame[DATA] & 0xFF);
        }
        expect("length of the frame", DATA + (request.writes() ? 4 : 1 + 2 * request.count()), frame.length);
        return new Answer(words(request, read(function, frame)), 0);
    }

    /**
     * A checked reply.
     *
     * @param words registers read
     * @param exception Modbus exception code, 0 for none
     */
    @SuppressWarnings("ArrayRecordComponent") // short-lived, handed on by the link, never compared
    record Answer(int[] words, int exception) {}

    private static ModbusResponse read(int function, byte[] frame) throws InvalidReplyException {
        ModbusResponse response = ModbusResponse.createModbusResponse(function);
        try (DataInputStream data = new DataInputStream(new ByteArrayInputStream(frame, DATA, frame.length - DATA))) {
            response.readData(data);
            return response;
        } catch (IOException e) {
            throw new InvalidReplyException("the reply ends too early", e);
        }
    }

    private static int[] words(Request request, ModbusResponse response) throws InvalidReplyException {
        int[] words = new int[request.writes() ? 0 : request.count()];
        if (response instanceof ReadMultipleRegistersResponse read) {
            for (int i = 0; i < words.length; i++) {
                words[i] = read.getRegisterValue(i) & 0xFFFF;
            }
        } else if (response instanceof ReadInputRegistersResponse read) {
            for (int i = 0; i < words.length; i++) {
                words[i] = read.getRegisterValue(i) & 0xFFFF;
            }
        } else if (response instanceof WriteSingleRegisterResponse echo) {
            expect("echoed address", request.address(), echo.getReference());
            expect("echoed word", word(request), echo.getRegisterValue() & 0xFFFF);
        } else if (response instanceof WriteMultipleRegistersResponse echo) {
            expect("echoed address", request.address(), echo.getReference());
            expect("echoed count", request.count(), echo.getWordCount());
        }
        return words;
    }

    private static int word(Request request) {
        return request instanceof Request.WriteSingle single ? single.word() : 0;
    }

    private static void expect(String what, int expected, int got) throws InvalidReplyException {
        if (expected != got) {
            throw new InvalidReplyException(what + " " + got + " instead of " + expected);
        }
    }

    private static int unsignedShort(byte[] bytes, int at) {
        return (bytes[at] & 0xFF) << 8 | (bytes[at + 1] & 0xFF);
    }
}
