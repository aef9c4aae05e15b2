package org.axtrial.link;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;

/**
 * One reply to Read Device Identification. Source: MODBUS Application Protocol V1.1b3, 6.21.
 *
 * @param conformity conformity level
 * @param moreFollows whether the rest has to be asked for
 * @param next the object to ask for then
 * @param objects texts by object id
 */
record IdentificationReply(int conformity, boolean moreFollows, int next, Map<Integer, String> objects) {

    private static final int HEAD = 7;
    private static final int MORE = 0xFF;

    /**
     * Reads it.
     *
     * @param pdu from the function code on
     * @throws InvalidReplyException if it is not what the specification says
     */
    static IdentificationReply parse(Request.Identify request, byte[] pdu) throws InvalidReplyException {
        if (pdu.length < HEAD) {
            throw new InvalidReplyException("the device identification is " + pdu.length + " bytes long, too short");
        }
        Pdu.expect("MEI type", Request.Identify.MEI_TYPE, pdu[1] & 0xFF);
        Pdu.expect("access code", request.access(), pdu[2] & 0xFF);
        int more = pdu[4] & 0xFF;
        if (more != 0 && more != MORE) {
            throw new InvalidReplyException("\"more follows\" is " + more + " instead of 0 or 255");
        }
        Map<Integer, String> objects = new TreeMap<>();
        int at = HEAD;
        for (int left = pdu[6] & 0xFF; left > 0; left--) {
            int end = at + 1 < pdu.length ? at + 2 + (pdu[at + 1] & 0xFF) : Integer.MAX_VALUE;
            if (end > pdu.length) {
                throw new InvalidReplyException("the device identification ends within an object");
            }
            objects.put(pdu[at] & 0xFF, text(pdu, at + 2, end));
            at = end;
        }
        Pdu.expect("length of the device identification", at, pdu.length);
        return new IdentificationReply(pdu[3] & 0xFF, more == MORE, pdu[5] & 0xFF, objects);
    }

    /** ASCII by the specification; what is not printable must not reach a terminal as it is. */
    private static String text(byte[] bytes, int from, int to) {
        return new String(bytes, from, to - from, StandardCharsets.ISO_8859_1)
                .replaceAll("\\p{Cntrl}", "�")
                .strip();
    }
}
