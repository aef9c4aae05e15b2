package org.axtrial.axis;

import org.axtrial.quantity.Quantity;

/**
 * How far and how fast an axis may move before its sense and scale are proven in a run. A wrong sign or a wrong scale is a
 * runaway, so the first motion is small and slow.
 *
 * @param travel distance either way from where it first moves, positive; many small moves together count as one
 * @param speed largest speed that may be ordered, positive
 */
public record FirstMotion(Quantity travel, Quantity speed) {

    /** Share of the travel window that is allowed where nobody says otherwise (common practice, no source). */
    public static final double TRAVEL_SHARE = 0.01;
    /** Share of the largest speed that is allowed where nobody says otherwise (common practice, no source). */
    public static final double SPEED_SHARE = 0.1;

    public FirstMotion {
        if (!(travel.value() > 0 && speed.value() > 0)) {
            throw new IllegalArgumentException(
                    "a first motion needs a travel and a speed above 0, got " + travel + " and " + speed);
        }
    }
}
