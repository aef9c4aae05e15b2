package org.axtrial.axis;

import java.time.Duration;

/**
 * How a safe stop went.
 *
 * @param axis name of the axis
 * @param reason why it was stopped
 * @param ordered whether the drive acknowledged at least one stop command
 * @param standstill whether standstill was seen in the position samples
 * @param took from the first order to the confirmation, or to giving up
 * @param detail what was seen, one sentence
 */
public record StopReport(
        String axis, String reason, boolean ordered, boolean standstill, Duration took, String detail) {}
