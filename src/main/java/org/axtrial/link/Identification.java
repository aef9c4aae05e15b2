package org.axtrial.link;

import java.util.Map;
import java.util.TreeMap;

/**
 * Asks a drive for its device identification: regular objects by stream, then basic ones, then one by one. Source:
 * MODBUS Application Protocol V1.1b3, 6.21.
 */
final class Identification {

    private static final int BASIC = 1;
    private static final int REGULAR = 2;
    private static final int SINGLE = 4;

    private static final int ILLEGAL_FUNCTION = 1;
    private static final int ILLEGAL_ADDRESS = 2;
    private static final int ILLEGAL_VALUE = 3;

    /** One exchange. */
    interface Exchange {
        IdentificationReply of(Request.Identify request) throws LinkException;
    }

    private final Exchange exchange;

    Identification(Exchange exchange) {
        this.exchange = exchange;
    }

    /** Exceptions 01, 02 and 03 are the ways to say that there is nothing to tell. */
    DeviceIdentification read() throws LinkException {
        DriveRefusedException last = null;
        for (int access : new int[] {REGULAR, BASIC, SINGLE}) {
            try {
                return access == SINGLE ? single() : stream(access);
            } catch (DriveRefusedException e) {
                if (e.code() != ILLEGAL_FUNCTION && e.code() != ILLEGAL_ADDRESS && e.code() != ILLEGAL_VALUE) {
                    throw e;
                }
                last = e;
                if (e.code() == ILLEGAL_FUNCTION) {
                    break;
                }
            }
        }
        return new DeviceIdentification.NotTold(String.valueOf(last == null ? "" : last.getMessage()));
    }

    private DeviceIdentification stream(int access) throws LinkException {
        Map<Integer, String> objects = new TreeMap<>();
        int next = 0;
        while (true) {
            IdentificationReply reply = exchange.of(new Request.Identify(access, next));
            objects.putAll(reply.objects());
            if (!reply.moreFollows()) {
                return new DeviceIdentification.Told(reply.conformity(), objects);
            }
            if (reply.next() <= next) {
                return new DeviceIdentification.NotTold(
                        "the drive sends its device identification in circles: after object " + next + " it names "
                                + reply.next() + " as the next");
            }
            next = reply.next();
        }
    }

    private DeviceIdentification single() throws LinkException {
        Map<Integer, String> objects = new TreeMap<>();
        int conformity = 0;
        for (int id = DeviceIdentification.VENDOR_NAME; id <= DeviceIdentification.REVISION; id++) {
            IdentificationReply reply = exchange.of(new Request.Identify(SINGLE, id));
            conformity = reply.conformity();
            objects.putAll(reply.objects());
        }
        return new DeviceIdentification.Told(conformity, objects);
    }
}
