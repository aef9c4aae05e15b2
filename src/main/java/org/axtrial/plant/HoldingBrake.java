package org.axtrial.plant;

import java.time.Duration;

/**
 * Spring-applied brake at the motor shaft: closed without current. More than its holding torque makes it slip.
 *
 * @param torque holding torque in N·m, not negative
 * @param engageDelay from taking its current away until it holds
 * @param releaseDelay from giving it current until it is open
 */
public record HoldingBrake(double torque, Duration engageDelay, Duration releaseDelay) {

    public HoldingBrake {
        Require.notNegative("brake torque", torque);
        if (engageDelay.isNegative() || releaseDelay.isNegative()) {
            throw new IllegalArgumentException(
                    "brake delays must not be negative, got " + engageDelay + " and " + releaseDelay);
        }
    }

    /** A brake without delays. */
    public static HoldingBrake immediate(double torque) {
        return new HoldingBrake(torque, Duration.ZERO, Duration.ZERO);
    }
}
