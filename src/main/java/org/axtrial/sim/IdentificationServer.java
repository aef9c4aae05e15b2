package org.axtrial.sim;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Answers Read Device Identification, function code 43 with MEI type 14. Source: MODBUS Application Protocol V1.1b3,
 * 6.21.
 *
 * <p>Objects are read by stream, as many as fit a reply, or one by one. A stream that is asked to begin at an object that
 * does not exist begins at the first. Asked for more than it conforms to, the drive tells what it has.
 */
final class IdentificationServer {

    private static final int FUNCTION = 0x2B;
    private static final int MEI_TYPE = 0x0E;
    private static final int REQUEST_LENGTH = 4;
    private static final int LARGEST_PDU = 253;

    private static final int BASIC = 1;
    private static final int REGULAR = 2;
    private static final int EXTENDED = 3;
    private static final int SINGLE = 4;

    private static final int LAST_BASIC = 2;
    private static final int LAST_REGULAR = 6;
    private static final int LAST_EXTENDED = 255;
    private static final int SINGLE_TOO = 0x80;

    private final NavigableMap<Integer, byte[]> objects = new TreeMap<>();
    private final int conformity;

    IdentificationServer(Map<Integer, String> texts) {
        texts.forEach((id, text) -> objects.put(id, text.getBytes(StandardCharsets.US_ASCII)));
        conformity = conformity(texts);
    }

    /** The conformity level of a drive with these objects, single access included. */
    static int conformity(Map<Integer, String> texts) {
        int last = texts.keySet().stream().mapToInt(id -> id).max().orElse(0);
        return SINGLE_TOO | (last <= LAST_BASIC ? BASIC : last <= LAST_REGULAR ? REGULAR : EXTENDED);
    }

    /** Whether the request is one for here; all others are, or are not, known elsewhere. */
    boolean answers(byte[] request) {
        return !objects.isEmpty() && request.length > 1 && request[0] == FUNCTION && request[1] == MEI_TYPE;
    }

    byte[] answer(byte[] request) {
        if (request.length != REQUEST_LENGTH) {
            return RegisterServer.exception(FUNCTION, RegisterServer.ILLEGAL_DATA_VALUE);
        }
        int object = request[3] & 0xFF;
        return switch (request[2]) {
            case BASIC -> stream(BASIC, object, LAST_BASIC);
            case REGULAR -> stream(REGULAR, object, LAST_REGULAR);
            case EXTENDED -> stream(EXTENDED, object, LAST_EXTENDED);
            case SINGLE ->
                objects.containsKey(object)
                        ? reply(SINGLE, objects.subMap(object, true, object, true), Optional.empty())
                        : RegisterServer.exception(FUNCTION, RegisterServer.ILLEGAL_DATA_ADDRESS);
            default -> RegisterServer.exception(FUNCTION, RegisterServer.ILLEGAL_DATA_VALUE);
        };
    }

    private byte[] stream(int access, int asked, int last) {
        NavigableMap<Integer, byte[]> wanted = objects.headMap(last, true);
        int first = wanted.containsKey(asked) ? asked : wanted.firstKey();
        NavigableMap<Integer, byte[]> fitting = new TreeMap<>();
        int length = 7;
        for (Map.Entry<Integer, byte[]> object : wanted.tailMap(first, true).entrySet()) {
            length += 2 + object.getValue().length;
            if (length > LARGEST_PDU) {
                return reply(access, fitting, Optional.of(object.getKey()));
            }
            fitting.put(object.getKey(), object.getValue());
        }
        return reply(access, fitting, Optional.empty());
    }

    private byte[] reply(int access, NavigableMap<Integer, byte[]> told, Optional<Integer> next) {
        ByteArrayOutputStream pdu = new ByteArrayOutputStream();
        pdu.write(FUNCTION);
        pdu.write(MEI_TYPE);
        pdu.write(access);
        pdu.write(conformity);
        pdu.write(next.isPresent() ? 0xFF : 0);
        pdu.write(next.orElse(0));
        pdu.write(told.size());
        told.forEach((id, text) -> {
            pdu.write(id);
            pdu.write(text.length);
            pdu.writeBytes(text);
        });
        return pdu.toByteArray();
    }
}
