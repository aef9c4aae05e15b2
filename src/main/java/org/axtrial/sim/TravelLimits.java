package org.axtrial.sim;

import org.axtrial.registers.SignalNames;

/**
 * Limit switches and software position limits.
 *
 * <p>Software limits (CiA 402 object 607Dh) are told from the home position; as the zero of the register lies home
 * offset away from there, the register shows each limit as limit − home offset. A target beyond is moved to the limit.
 * They hold at all times, homing excepted, for the standard does not make them wait for a homing. Both limits 0, or a
 * lower one that is not below the upper one, mean none (common practice).
 */
final class TravelLimits implements Settings {

    private static final double HALF_A_COUNT = 0.5;

    private final DigitalInputs inputs;
    private final Servo servo;
    private final PositionRegister position;
    private final HomingSettings homing;

    private double lowest;
    private double highest;
    private boolean clipped;

    TravelLimits(DigitalInputs inputs, Servo servo, PositionRegister position, HomingSettings homing) {
        this.inputs = inputs;
        this.servo = servo;
        this.position = position;
        this.homing = homing;
    }

    @Override
    public boolean has(String name) {
        return name.equals(SignalNames.SOFTWARE_LIMIT_MIN) || name.equals(SignalNames.SOFTWARE_LIMIT_MAX);
    }

    @Override
    public double start(String name) {
        return name.equals(SignalNames.SOFTWARE_LIMIT_MIN) ? lowest : highest;
    }

    @Override
    public boolean accept(String name, double value) {
        if (name.equals(SignalNames.SOFTWARE_LIMIT_MIN)) {
            lowest = value;
        } else {
            highest = value;
        }
        return true;
    }

    /** Where the software limits end the travel in a signed direction, counts since the start; infinite without any. */
    double end(double direction) {
        if (!(lowest < highest)) {
            return direction * Double.POSITIVE_INFINITY;
        }
        return position.countsShowing((direction > 0 ? highest : lowest) - homing.offset());
    }

    /** A target brought inside the software limits. */
    double clip(double target) {
        double inside = Math.max(end(-1), Math.min(end(1), target));
        clipped = inside != target;
        return inside;
    }

    /** Whether no motion in the signed direction is allowed from where the demand is. */
    boolean block(double direction) {
        return inputs.endOfTravel(direction)
                || direction * (servo.profile().position() - end(direction)) > HALF_A_COUNT;
    }

    /** Whether a limit is what keeps the axis where it is, statusword bit 11. */
    boolean active() {
        double demand = servo.profile().position();
        return clipped
                || inputs.active(SwitchInput.NEGATIVE_LIMIT)
                || inputs.active(SwitchInput.POSITIVE_LIMIT)
                || demand >= end(1) - HALF_A_COUNT
                || demand <= end(-1) + HALF_A_COUNT;
    }
}
