package org.axtrial.sim;

import java.time.Duration;

/** What becomes of a request once the faults of the wire have had their way. */
sealed interface WireOutcome {

    /** What is wrong with a reply beside its contents. */
    enum Spoil {
        NONE(""),
        DOUBLED("the reply came twice"),
        OTHER_TRANSACTION("the reply has another transaction id"),
        OTHER_UNIT("the reply has another unit id"),
        CUT("the connection was closed in the middle of the reply");

        private final String text;

        Spoil(String text) {
            this.text = text;
        }

        String text() {
            return text;
        }
    }

    /** A response goes out, after a while. */
    @SuppressWarnings("ArrayRecordComponent") // short-lived, never compared
    record Reply(byte[] pdu, Duration after, Spoil spoil) implements WireOutcome {}

    /** A response goes out byte by byte. */
    @SuppressWarnings("ArrayRecordComponent") // short-lived, never compared
    record Trickle(byte[] pdu, Duration each) implements WireOutcome {}

    /** No response. */
    record Nothing() implements WireOutcome {}

    /** The connection is reset. */
    record Reset() implements WireOutcome {}

    /** The connection looks open, but nobody hears it any more. */
    record Forgotten() implements WireOutcome {}

    /** The connection is closed and the next attempts to connect are turned away. */
    record Taken(int attempts) implements WireOutcome {}
}
