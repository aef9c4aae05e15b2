package org.axtrial.axis;

import java.time.Duration;
import java.util.Optional;
import org.axtrial.quantity.Quantity;

/**
 * What a script may say about a motion beside where it goes.
 *
 * @param speed empty takes the axis's default
 * @param acceleration empty takes the axis's default
 * @param settle how long to go on sampling after the drive says that it has arrived; empty takes 200 ms
 */
public record MoveOptions(Optional<Quantity> speed, Optional<Quantity> acceleration, Optional<Duration> settle) {

    public static final MoveOptions DEFAULT = new MoveOptions(Optional.empty(), Optional.empty(), Optional.empty());
}
