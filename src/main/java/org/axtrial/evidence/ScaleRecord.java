package org.axtrial.evidence;

import java.util.OptionalDouble;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * The scale of an axis as the record keeps it, so that a reader can carry limits and samples from counts into angle or
 * length and back without the site file. The ratios are those of {@link AxisScale}.
 *
 * @param encoderCounts encoder counts in one motor revolution
 * @param gearNumerator electronic gear: encoder counts …
 * @param gearDenominator … for so many register counts
 * @param motorTurns gearbox, motor side
 * @param loadTurns gearbox, load side
 * @param leadMillimetres travel of a linear axis in one load revolution, millimetres; empty for a rotary axis
 * @param direction +1 if growing counts are positive travel, else −1
 */
public record ScaleRecord(
        long encoderCounts,
        long gearNumerator,
        long gearDenominator,
        long motorTurns,
        long loadTurns,
        OptionalDouble leadMillimetres,
        int direction) {

    static ScaleRecord of(AxisScale scale) {
        return new ScaleRecord(
                scale.encoderCounts(),
                scale.gearNumerator(),
                scale.gearDenominator(),
                scale.motorTurns(),
                scale.loadTurns(),
                scale.leadIfLinear()
                        .map(lead -> OptionalDouble.of(lead.in(Unit.MILLIMETRE)))
                        .orElse(OptionalDouble.empty()),
                scale.direction());
    }

    /** The scale again. */
    public AxisScale scale() {
        return new AxisScale(
                encoderCounts,
                gearNumerator,
                gearDenominator,
                motorTurns,
                loadTurns,
                leadMillimetres.isPresent() ? new Quantity(leadMillimetres.getAsDouble(), Unit.MILLIMETRE) : null,
                direction);
    }
}
