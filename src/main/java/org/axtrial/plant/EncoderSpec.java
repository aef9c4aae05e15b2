package org.axtrial.plant;

/**
 * The encoder at the motor shaft.
 *
 * @param countsPerRevolution resolution, at least 1
 * @param offset angle in rad that it reads at the shaft angle 0
 * @param noise standard deviation of a reading in rad, not negative
 * @param turns revolutions that its absolute value tells apart: 1 for single-turn, more for multi-turn
 */
public record EncoderSpec(double countsPerRevolution, double offset, double noise, long turns) {

    public EncoderSpec {
        if (!(countsPerRevolution >= 1) || Double.isInfinite(countsPerRevolution)) {
            throw new IllegalArgumentException("encoder counts must be at least 1, got " + countsPerRevolution);
        }
        Require.finite("encoder offset", offset);
        Require.notNegative("encoder noise", noise);
        if (turns < 1) {
            throw new IllegalArgumentException("encoder turns must be at least 1, got " + turns);
        }
    }
}
