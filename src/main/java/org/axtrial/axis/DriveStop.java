package org.axtrial.axis;

/**
 * A stop that this program did not order, seen in the samples of a motion during which a person operated a device.
 *
 * @param seconds when it began, on the time axis of the motion: the middle between the last sample that showed the axis at
 *     work and the first that showed it stopping
 * @param halfWidth seconds by which it may have begun earlier or later, half of a round trip included
 * @param how what showed it
 */
public record DriveStop(double seconds, double halfWidth, String how) {}
