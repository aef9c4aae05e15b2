package org.axtrial.sim;

import java.time.Duration;

/**
 * Something that goes wrong between a request and its reply. A fault is armed once and strikes requests that it fits;
 * several may be armed. Of those that fit a request the one armed first strikes; a {@link SlowDrive} adds its time to
 * whatever else happens.
 */
public sealed interface WireFault {

    /** Strikes whatever the function code. */
    int ANY_FUNCTION = 0;

    /** Strikes until it is disarmed. */
    int WITHOUT_END = Integer.MAX_VALUE;

    /** Which requests it strikes. */
    Strikes strikes();

    /**
     * Which requests a fault strikes.
     *
     * @param function a Modbus function code, 1 … 127, or {@link #ANY_FUNCTION}
     * @param after how many requests that fit pass unharmed first, at least 0
     * @param count how many it strikes then, at least 1; {@link #WITHOUT_END} for all
     */
    record Strikes(int function, int after, int count) {

        /** Every request. */
        public static final Strikes FROM_NOW_ON = new Strikes(ANY_FUNCTION, 0, WITHOUT_END);

        public Strikes {
            if (function < 0 || function > 127) {
                throw new IllegalArgumentException("a function code is 1 … 127, or 0 for any, got " + function);
            }
            if (after < 0) {
                throw new IllegalArgumentException("a fault cannot begin after " + after + " requests");
            }
            if (count < 1) {
                throw new IllegalArgumentException("a fault strikes at least once, got " + count);
            }
        }

        /** The next requests. */
        static Strikes next(int function, int count) {
            return new Strikes(function, 0, count);
        }
    }

    /**
     * The drive acts on the request, but its reply is lost: a bad plug, a switch that drops frames under load. Whoever
     * repeats the request then moves twice.
     */
    record DropReply(Strikes strikes) implements WireFault {

        public DropReply(int function, int count) {
            this(Strikes.next(function, count));
        }
    }

    /**
     * The drive acts on the request and its reply comes so much later: a busy gateway, a drive that saves to its memory.
     * Beyond the deadline the reply meets a master that has given up, and must not answer its next question.
     */
    record DelayReply(Strikes strikes, Duration by) implements WireFault {

        public DelayReply {
            notNegative(by);
        }

        public DelayReply(int function, Duration by, int count) {
            this(Strikes.next(function, count), by);
        }
    }

    /** The reply comes twice: a gateway that repeats, a loop in the network. */
    record DoubleReply(Strikes strikes) implements WireFault {}

    /** The reply carries the transaction id of an earlier request: a gateway that mixes up its queue. */
    record WrongTransaction(Strikes strikes) implements WireFault {}

    /** The reply carries another unit id: two devices behind a gateway, one of them wrongly addressed. */
    record WrongUnit(Strikes strikes) implements WireFault {}

    /** The reply carries another function code, as the answer to somebody else's request would. */
    record WrongFunction(Strikes strikes) implements WireFault {}

    /** The reply is two bytes short and says so consistently: an answer for fewer registers than were asked for. */
    record WrongLength(Strikes strikes) implements WireFault {}

    /**
     * The reply comes byte by byte, each so long after the last: a serial line behind a gateway. Every single byte is in
     * time, the whole reply is not.
     */
    record TrickleReply(Strikes strikes, Duration each) implements WireFault {

        public TrickleReply {
            notNegative(each);
        }
    }

    /** The connection is closed in the middle of the reply: a drive that restarts. */
    record CutReply(Strikes strikes) implements WireFault {}

    /** The drive acts on the request, then the connection is reset instead of a reply. */
    record ResetConnection(Strikes strikes) implements WireFault {

        public ResetConnection(int function, int count) {
            this(Strikes.next(function, count));
        }
    }

    /**
     * The drive forgets the connection without a word, as after a dip of its supply: the request is not acted on, nothing
     * ever comes back on this connection, and it looks open. A new connection is served.
     */
    record HalfOpen(Strikes strikes) implements WireFault {}

    /**
     * Somebody else holds the drive: the request is not acted on, the connection is closed, and the next attempts to
     * connect are accepted and closed at once.
     */
    record ConnectionsTaken(Strikes strikes, int attempts) implements WireFault {

        public ConnectionsTaken {
            if (attempts < 1) {
                throw new IllegalArgumentException("at least one attempt to connect is turned away, got " + attempts);
            }
        }
    }

    /** The drive does not act on the request and answers with an exception code, 1 … 255. */
    record ExceptionReply(Strikes strikes, int code) implements WireFault {

        public ExceptionReply {
            if (code < 1 || code > 255) {
                throw new IllegalArgumentException("an exception code is 1 … 255, got " + code);
            }
        }

        public ExceptionReply(int function, int code, int count) {
            this(Strikes.next(function, count), code);
        }
    }

    /**
     * Reads answer what the registers showed when the fault began, while the drive goes on: a gateway that answers from
     * its memory, a communication processor that lost its drive. Writes still act.
     */
    record FrozenValues(Strikes strikes) implements WireFault {}

    /**
     * Values wider than a register are read torn: the word at the lowest address is of now, the others are of the read
     * before. Seen where the low word runs over between the two, as a jump of 65536 counts there and back.
     */
    record TornWords(Strikes strikes) implements WireFault {}

    /**
     * The connection is reset, and from then on another drive answers at the address: identity constants read
     * otherwise. Two drives with one address, or a plug put back into the wrong drive.
     */
    record OtherDrive(Strikes strikes) implements WireFault {}

    /** Every reply takes so much longer: a drive whose processor is busy with its loops. */
    record SlowDrive(Strikes strikes, Duration each) implements WireFault {

        public SlowDrive {
            notNegative(each);
        }

        public SlowDrive(Duration each) {
            this(Strikes.FROM_NOW_ON, each);
        }
    }

    /** Nothing reaches the drive and nothing comes back, on any connection, as with a pulled cable. */
    record Silence(Strikes strikes) implements WireFault {

        public Silence() {
            this(Strikes.FROM_NOW_ON);
        }
    }

    private static void notNegative(Duration time) {
        if (time.isNegative()) {
            throw new IllegalArgumentException("a delay must not be negative, got " + time);
        }
    }
}
