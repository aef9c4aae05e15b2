package org.axtrial.drive;

/**
 * The exchange that set an axis in motion; the drive began somewhere between the two times.
 *
 * @param sentNanos when the starting write was sent, on the drive's {@code TimeSource}
 * @param repliedNanos when its reply was complete
 */
public record Started(long sentNanos, long repliedNanos) {}
