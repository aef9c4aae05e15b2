package org.axtrial.link;

/** What one exchange brought, and when. */
public final class Reply {

    private final int[] words;
    private final long sentNanos;
    private final long repliedNanos;

    /**
     * A reply.
     *
     * @param words register words read, 0 … 65535 each; empty after a write
     * @param sentNanos when the request was handed to the wire, on the link's {@code TimeSource}
     * @param repliedNanos when the reply was complete; the drive acted somewhere between the two
     */
    public Reply(int[] words, long sentNanos, long repliedNanos) {
        this.words = words.clone();
        this.sentNanos = sentNanos;
        this.repliedNanos = repliedNanos;
    }

    /** The words read, a copy. */
    public int[] words() {
        return words.clone();
    }

    public long sentNanos() {
        return sentNanos;
    }

    public long repliedNanos() {
        return repliedNanos;
    }
}
