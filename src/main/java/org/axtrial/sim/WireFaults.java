package org.axtrial.sim;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;

/** The armed faults of one wire. Safe for several threads. */
final class WireFaults {

    private final List<Armed> armed = new ArrayList<>();

    private static final class Armed {
        private final WireFault fault;
        private int left;

        Armed(WireFault fault, int left) {
            this.fault = fault;
            this.left = left;
        }
    }

    synchronized void arm(WireFault fault) {
        armed.add(new Armed(fault, count(fault)));
    }

    synchronized void clear() {
        armed.clear();
    }

    /** The fault that strikes a request of that function code now. */
    synchronized Optional<WireFault> strike(int function) {
        for (Iterator<Armed> each = armed.iterator(); each.hasNext(); ) {
            Armed candidate = each.next();
            int wanted = function(candidate.fault);
            if (wanted == WireFault.ANY_FUNCTION || wanted == function) {
                if (!(candidate.fault instanceof WireFault.Silence) && --candidate.left == 0) {
                    each.remove();
                }
                return Optional.of(candidate.fault);
            }
        }
        return Optional.empty();
    }

    private static int function(WireFault fault) {
        if (fault instanceof WireFault.DropReply drop) {
            return drop.function();
        }
        if (fault instanceof WireFault.DelayReply delay) {
            return delay.function();
        }
        if (fault instanceof WireFault.ResetConnection reset) {
            return reset.function();
        }
        return fault instanceof WireFault.ExceptionReply exception ? exception.function() : WireFault.ANY_FUNCTION;
    }

    private static int count(WireFault fault) {
        if (fault instanceof WireFault.DropReply drop) {
            return drop.count();
        }
        if (fault instanceof WireFault.DelayReply delay) {
            return delay.count();
        }
        if (fault instanceof WireFault.ResetConnection reset) {
            return reset.count();
        }
        return fault instanceof WireFault.ExceptionReply exception ? exception.count() : 1;
    }
}
