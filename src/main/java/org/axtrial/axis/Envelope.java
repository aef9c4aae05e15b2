package org.axtrial.axis;

import java.time.Duration;
import java.util.Optional;
import org.axtrial.quantity.Quantity;

/**
 * What the runner allows an axis to do, whatever a script asks. Checked before a command is sent and on every sample
 * while the axis moves.
 *
 * @param lowest lowest position of the travel window, on the zero of the axis
 * @param highest highest position of the travel window, above {@code lowest}
 * @param speed largest speed that may be ordered, either way; a measured speed trips a tenth above it, because a loop
 *     may overshoot (common practice, no source)
 * @param acceleration largest ordered acceleration
 * @param torque largest torque as percent of rated; empty if the site file sets none
 * @param time longest time a single motion may take, including settling
 */
public record Envelope(
        Quantity lowest,
        Quantity highest,
        Quantity speed,
        Quantity acceleration,
        Optional<Quantity> torque,
        Duration time) {}
