package org.axtrial.link;

/**
 * What one exchange brought.
 *
 * @param words register words read, 0 … 65535 each; empty after a write
 * @param sentNanos when the request was handed to the wire, on the link's {@code TimeSource}
 * @param repliedNanos when the reply was complete; the drive acted somewhere between the two
 */
public record Reply(int[] words, long sentNanos, long repliedNanos) {

    /** Middle of the exchange: the best estimate of the moment the drive looked at its registers. */
    public long midNanos() {
        return sentNanos + (repliedNanos - sentNanos) / 2;
    }
}
