package org.axtrial.sim;

/** One switch on the travel: active between two places, with hysteresis, unless it is broken. */
final class TravelSwitch {

    private final double from;
    private final double to;
    private final double hysteresis;
    private boolean pressed;
    private boolean held;
    private SwitchCondition condition = SwitchCondition.WORKS;

    /** A switch at places in motor revolutions; one that is not there is never pressed. */
    TravelSwitch(SimulationSpec.SwitchRange range) {
        this.from = 2 * Math.PI * range.from();
        this.to = 2 * Math.PI * range.to();
        this.hysteresis = 2 * Math.PI * range.hysteresis();
    }

    /** Sees the shaft at an angle in rad. */
    void see(double angle) {
        double reach = pressed ? hysteresis : 0;
        pressed = angle >= from - reach && angle <= to + reach;
    }

    /** A hand presses it, or lets go. */
    void hold(boolean by) {
        held = by;
    }

    void become(SwitchCondition now) {
        condition = now;
    }

    /** What its input shows. */
    boolean active() {
        return switch (condition) {
            case WORKS -> pressed || held;
            case STUCK_INACTIVE -> false;
            case STUCK_ACTIVE -> true;
        };
    }
}
