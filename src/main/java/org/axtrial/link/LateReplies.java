package org.axtrial.link;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.axtrial.time.TimeSource;

/**
 * Replies that a serial line still owes. A serial frame has no transaction id, so a reply that comes after its time looks
 * like the answer to the next request. What is owed is therefore remembered, over new connections too, because a gateway
 * hands late bytes to whoever is connected then.
 *
 * <p>A device answers in order: once it has answered a later request, it owes nothing from before.
 */
final class LateReplies {

    private record Owed(Request request, int unit, long untilNanos) {}

    /** A dead device is asked again and again, and will not answer all of it. */
    private static final int MOST = 32;

    private final TimeSource time;
    private final List<Owed> owed = new ArrayList<>();

    LateReplies(TimeSource time) {
        this.time = time;
    }

    /** The reply did not come in time; it may still come, and is listened for until then. */
    void add(Request request, int unit, long untilNanos) {
        if (owed.size() == MOST) {
            owed.remove(0);
        }
        owed.add(new Owed(request, unit, untilNanos));
    }

    boolean isEmpty() {
        return owed.isEmpty();
    }

    /** The unit has answered a request that was sent after all that it owes. */
    void answered(int unit) {
        owed.removeIf(reply -> reply.unit == unit);
    }

    /** Takes a frame that is a reply owed; false if it is none. */
    boolean settle(int unit, byte[] pdu) {
        for (Iterator<Owed> each = owed.iterator(); each.hasNext(); ) {
            Owed reply = each.next();
            if (reply.unit == unit && answers(reply.request, pdu)) {
                each.remove();
                return true;
            }
        }
        return false;
    }

    /**
     * How long to listen before this request may go out, in ns, 0 if it may at once. Replies to different functions
     * cannot be confused, those to the same function can, if only by their exception codes.
     */
    long listenNanos(Request request, int unit) {
        return owed.stream()
                .filter(reply -> reply.unit == unit && reply.request.function() == request.function())
                .mapToLong(reply -> reply.untilNanos - time.nanos())
                .filter(left -> left > 0)
                .max()
                .orElse(0);
    }

    static boolean answers(Request request, byte[] pdu) {
        try {
            Pdu.answer(request, pdu);
            return true;
        } catch (InvalidReplyException e) {
            return false;
        }
    }
}
