package org.axtrial.sim;

import java.time.Duration;

/**
 * Something that goes wrong between a request and its reply. A fault is armed once and strikes the next requests that it
 * fits; several may be armed, and the one armed first strikes first.
 *
 * <p>Function is a Modbus function code, or {@link #ANY_FUNCTION}; count is how many requests it strikes, at least 1.
 */
public sealed interface WireFault {

    /** Strikes whatever the function code. */
    int ANY_FUNCTION = 0;

    /** The drive acts on the request, but its reply is lost. */
    record DropReply(int function, int count) implements WireFault {

        public DropReply {
            check(function, count);
        }
    }

    /** The drive acts on the request and its reply comes so much later. */
    record DelayReply(int function, Duration by, int count) implements WireFault {

        public DelayReply {
            check(function, count);
            if (by.isNegative()) {
                throw new IllegalArgumentException("a delay must not be negative, got " + by);
            }
        }
    }

    /** The drive acts on the request, then the connection is reset instead of a reply. */
    record ResetConnection(int function, int count) implements WireFault {

        public ResetConnection {
            check(function, count);
        }
    }

    /** The drive does not act on the request and answers with an exception code, 1 … 255. */
    record ExceptionReply(int function, int code, int count) implements WireFault {

        public ExceptionReply {
            check(function, count);
            if (code < 1 || code > 255) {
                throw new IllegalArgumentException("an exception code is 1 … 255, got " + code);
            }
        }
    }

    /** From now on nothing reaches the drive and nothing comes back, as with a pulled cable. */
    record Silence() implements WireFault {}

    private static void check(int function, int count) {
        if (function < 0 || function > 127) {
            throw new IllegalArgumentException("a function code is 1 … 127, or 0 for any, got " + function);
        }
        if (count < 1) {
            throw new IllegalArgumentException("a fault strikes at least once, got " + count);
        }
    }
}
