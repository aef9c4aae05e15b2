package org.axtrial.sim;

/**
 * Profile torque (mode 4): the torque demand goes to the target torque by the torque slope, within max torque; the speed
 * stays below the motor's highest. Halt, and a limit towards which the shaft turns, brake by the quick stop or halt ramp
 * and hold the position; the torque returns with the end of halt, or with a target that leads away from the limit.
 */
final class ProfileTorqueMode extends Cia402Mode {

    private double targetTorque;
    private boolean holding;
    private boolean halted;
    private boolean operating;

    ProfileTorqueMode(Firmware firmware) {
        super(firmware);
    }

    /** Target torque 6071h in N·m, acted on at once. */
    void targetTorque(double wanted) {
        targetTorque = wanted;
        follow();
    }

    @Override
    void begin(boolean alreadyHalted) {
        operating = true;
        holding = false;
        halted = alreadyHalted;
        follow();
    }

    @Override
    void end() {
        operating = false;
    }

    private boolean blocked() {
        return targetTorque != 0 && limits.block(Math.signum(targetTorque));
    }

    private void follow() {
        if (!operating || halted || (holding && blocked())) {
            return;
        }
        holding = false;
        servo.driveTorque(targetTorque, settings.torqueSlope());
    }

    @Override
    void halt(boolean ordered) {
        halted = ordered;
        follow();
    }

    @Override
    void settingsChanged() {
        follow();
    }

    /** The limit is seen by the shaft, because no demand runs. */
    @Override
    boolean guarded() {
        return false;
    }

    @Override
    void tick() {
        if (!servo.torqueControlled()) {
            return;
        }
        double direction = Math.signum(servo.atStandstill() ? targetTorque : servo.speed());
        if (direction != 0 && limits.block(direction)) {
            holding = true;
            servo.stopFromShaft(settings.quickStopDeceleration());
        }
    }

    @Override
    boolean reached() {
        return servo.torqueControlled() && servo.torqueDemand() == targetTorque;
    }
}
