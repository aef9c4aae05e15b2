package org.axtrial.sim;

/** Lets the encoder slip each time that the torque rises above a limit, either way. */
final class SlipWatch {

    private final double limit;
    private final double radians;
    private boolean above;

    /**
     * A watch.
     *
     * @param limit N·m, positive
     * @param radians by how much it slips
     */
    SlipWatch(double limit, double radians) {
        this.limit = limit;
        this.radians = radians;
    }

    /** Looks at the servo after a step. */
    void look(Servo servo) {
        boolean now = Math.abs(servo.torque()) > limit;
        if (now && !above) {
            servo.slipEncoder(radians);
        }
        above = now;
    }
}
