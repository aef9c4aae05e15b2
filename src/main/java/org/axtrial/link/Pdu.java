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

/**
 * Function code and data, which are the same on every transport (MODBUS Application Protocol V1.1b3, 4.1), and the
 * checks around the message classes of the protocol library, which checks neither function nor length of a reply.
 */
final class Pdu {

    /** The most that a serial line carries (MODBUS Application Protocol V1.1b3, 4.1). */
    static final int LARGEST = 253;

    static final int EXCEPTION = 0x80;

    private Pdu() {}

    /** The bytes of a message of the protocol library. */
    static byte[] of(ModbusRequest message) {
        byte[] data = message.getMessage();
        byte[] pdu = new byte[1 + data.length];
        pdu[0] = (byte) message.getFunctionCode();
        System.arraycopy(data, 0, pdu, 1, data.length);
        return pdu;
    }

    /**
     * A checked reply.
     *
     * @param words registers read, empty after a write
     * @param bytes the whole of it
     * @param exception Modbus exception code, 0 for none
     */
    @SuppressWarnings("ArrayRecordComponent") // short-lived, handed on by the link, never compared
    record Answer(int[] words, byte[] bytes, int exception) {}

    /**
     * What a reply says.
     *
     * @param pdu at least one byte
     * @throws InvalidReplyException if it is not the reply to this request
     */
    static Answer answer(Request request, byte[] pdu) throws InvalidReplyException {
        int function = pdu[0] & 0xFF;
        if (function == (request.function() | EXCEPTION)) {
            expect("length of an exception reply", 2, pdu.length);
            return new Answer(new int[0], pdu, pdu[1] & 0xFF);
        }
        expect("function code", request.function(), function);
        if (request instanceof Request.Identify) {
            return new Answer(new int[0], pdu, 0);
        }
        if (!request.writes()) {
            expect("byte count", 2 * request.count(), pdu.length > 1 ? pdu[1] & 0xFF : 0);
        }
        expect("length of the reply", request.writes() ? 5 : 2 + 2 * request.count(), pdu.length);
        return new Answer(words(request, read(function, pdu)), pdu, 0);
    }

    private static ModbusResponse read(int function, byte[] pdu) throws InvalidReplyException {
        ModbusResponse response = ModbusResponse.createModbusResponse(function);
        try (DataInputStream data = new DataInputStream(new ByteArrayInputStream(pdu, 1, pdu.length - 1))) {
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

    static void expect(String what, int expected, int got) throws InvalidReplyException {
        if (expected != got) {
            throw new InvalidReplyException(what + " " + got + " instead of " + expected);
        }
    }
}
