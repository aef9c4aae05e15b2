package org.axtrial.sim;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.function.Function;
import org.axtrial.registers.RegisterTable;

/**
 * Answers Modbus requests from a register image: function codes 03, 04, 06 and 16.
 *
 * <p>Checks stand in the order of the state diagrams in MODBUS Application Protocol V1.1b3 (figures 13, 14, 16 and 22):
 * function code (exception 01), quantity and length (03), addresses (02), action (04).
 */
final class RegisterServer {

    static final int READ_HOLDING = 3;
    static final int READ_INPUT = 4;
    static final int WRITE_SINGLE = 6;
    static final int WRITE_MULTIPLE = 16;

    static final int ILLEGAL_FUNCTION = 1;
    static final int ILLEGAL_DATA_ADDRESS = 2;
    static final int ILLEGAL_DATA_VALUE = 3;
    static final int SERVER_DEVICE_FAILURE = 4;

    private static final int MOST_WRITTEN = 123;

    private final RegisterImage image;
    private final int mostRead;
    private final BiPredicate<RegisterCell, int[]> action;

    /**
     * A server over an image.
     *
     * @param mostRead largest quantity that one read may ask for, 1 … 125
     * @param action acts on a written cell; false if the drive refuses
     */
    RegisterServer(RegisterImage image, int mostRead, BiPredicate<RegisterCell, int[]> action) {
        this.image = image;
        this.mostRead = mostRead;
        this.action = action;
    }

    /** The response to a request, both without any header. */
    byte[] answer(byte[] request) {
        return answer(request, RegisterCell::words);
    }

    /** The response to a request whose reads see the registers in their own way. */
    byte[] answer(byte[] request, Function<RegisterCell, int[]> sight) {
        int function = request.length == 0 ? 0 : request[0] & 0xFF;
        return switch (function) {
            case READ_HOLDING -> read(function, RegisterTable.HOLDING, request, sight);
            case READ_INPUT -> read(function, RegisterTable.INPUT, request, sight);
            case WRITE_SINGLE -> writeSingle(request);
            case WRITE_MULTIPLE -> writeMultiple(request);
            default -> exception(function, ILLEGAL_FUNCTION);
        };
    }

    /** An exception response. */
    static byte[] exception(int function, int code) {
        return new byte[] {(byte) (function | 0x80), (byte) code};
    }

    private byte[] read(int function, RegisterTable table, byte[] request, Function<RegisterCell, int[]> sight) {
        if (request.length != 5) {
            return exception(function, ILLEGAL_DATA_VALUE);
        }
        int quantity = word(request, 3);
        if (quantity < 1 || quantity > mostRead) {
            return exception(function, ILLEGAL_DATA_VALUE);
        }
        Optional<int[]> words = image.read(table, word(request, 1), quantity, sight);
        if (words.isEmpty()) {
            return exception(function, ILLEGAL_DATA_ADDRESS);
        }
        byte[] response = new byte[2 + 2 * quantity];
        response[0] = (byte) function;
        response[1] = (byte) (2 * quantity);
        for (int i = 0; i < quantity; i++) {
            put(response, 2 + 2 * i, words.get()[i]);
        }
        return response;
    }

    private byte[] writeSingle(byte[] request) {
        if (request.length != 5) {
            return exception(WRITE_SINGLE, ILLEGAL_DATA_VALUE);
        }
        int refused = write(word(request, 1), new int[] {word(request, 3)});
        return refused == 0 ? request.clone() : exception(WRITE_SINGLE, refused);
    }

    private byte[] writeMultiple(byte[] request) {
        if (request.length < 6) {
            return exception(WRITE_MULTIPLE, ILLEGAL_DATA_VALUE);
        }
        int quantity = word(request, 3);
        int bytes = request[5] & 0xFF;
        if (quantity < 1 || quantity > MOST_WRITTEN || bytes != 2 * quantity || request.length != 6 + bytes) {
            return exception(WRITE_MULTIPLE, ILLEGAL_DATA_VALUE);
        }
        int[] words = new int[quantity];
        for (int i = 0; i < quantity; i++) {
            words[i] = word(request, 6 + 2 * i);
        }
        int refused = write(word(request, 1), words);
        return refused == 0 ? Arrays.copyOf(request, 5) : exception(WRITE_MULTIPLE, refused);
    }

    /** Acts on the covered values one after the other, by address; the first that is refused ends it. */
    private int write(int address, int[] words) {
        Optional<List<RegisterCell>> covered = image.covered(address, words.length);
        if (covered.isEmpty()) {
            return ILLEGAL_DATA_ADDRESS;
        }
        for (RegisterCell cell : covered.get()) {
            int[] own = Arrays.copyOfRange(words, cell.first() - address, cell.end() - address);
            if (!action.test(cell, own)) {
                return SERVER_DEVICE_FAILURE;
            }
        }
        return 0;
    }

    /** A 16-bit field of a PDU, high byte first. */
    static int word(byte[] pdu, int at) {
        return (pdu[at] & 0xFF) << 8 | (pdu[at + 1] & 0xFF);
    }

    /** Puts a 16-bit field into a PDU, high byte first. */
    static void put(byte[] pdu, int at, int word) {
        pdu[at] = (byte) (word >>> 8);
        pdu[at + 1] = (byte) word;
    }
}
