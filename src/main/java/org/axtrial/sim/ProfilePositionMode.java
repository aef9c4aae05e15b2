package org.axtrial.sim;

/**
 * Profile position (mode 1): set-point handshake by controlword bit 4 and statusword bit 12, change immediately (bit 5),
 * relative (bit 6).
 *
 * <p>A relative set-point counts from the set-point before it; after enabling, a stop or a change of mode from the
 * demand at rest. A set-point that arrives while another one runs, without change immediately, is kept until that one
 * has been travelled; bit 12 stays set for so long. A set-point beyond a software limit is moved to the limit; one that
 * leads towards an active limit switch is acknowledged, not travelled and never reached.
 */
final class ProfilePositionMode extends Cia402Mode {

    private double targetPosition;
    private boolean acknowledged;
    private double lastTarget;
    private boolean unfinished;
    private boolean missed;
    private boolean buffered;
    private double bufferedTarget;
    private double moveSpeed;
    private double moveAcceleration;
    private double moveDeceleration;
    private boolean halted;

    ProfilePositionMode(Firmware firmware) {
        super(firmware);
    }

    /** Target position 607Ah, for the next set-point. */
    void targetPosition(double value) {
        targetPosition = value;
    }

    /** Bit 4 was cleared, in whatever state: the handshake is over. */
    void handshakeEnded() {
        acknowledged = false;
    }

    @Override
    void begin(boolean alreadyHalted) {
        halted = alreadyHalted;
        holdHere();
    }

    /** Forgets what was ordered and takes the end of the present demand for the last target. */
    void holdHere() {
        lastTarget = Math.rint(servo.profile().target());
        unfinished = false;
        missed = false;
        buffered = false;
    }

    @Override
    void end() {
        acknowledged = false;
        buffered = false;
        unfinished = false;
    }

    @Override
    void control(int word, int risen) {
        if ((risen & CONTROL_BIT_4) != 0 && !buffered) {
            takeSetPoint((word & CONTROL_BIT_6) != 0, (word & CONTROL_BIT_5) != 0);
        }
    }

    private void takeSetPoint(boolean relative, boolean immediately) {
        acknowledged = true;
        double target = relative
                ? lastTarget + Math.rint(targetPosition)
                : firmware.position.targetFrom(servo.profile().position(), targetPosition);
        if (immediately || !servo.profile().running()) {
            start(target);
        } else {
            buffered = true;
            bufferedTarget = target;
        }
    }

    private void start(double wanted) {
        double target = limits.clip(wanted);
        double way = Math.signum(target - servo.profile().position());
        firmware.countMotion();
        if (way != 0 && limits.block(way)) {
            missed = true;
            unfinished = false;
            return;
        }
        lastTarget = target;
        moveSpeed = settings.speed();
        moveAcceleration = settings.acceleration();
        moveDeceleration = settings.deceleration();
        missed = false;
        unfinished = true;
        if (!halted) {
            go();
        }
    }

    private void go() {
        servo.move(lastTarget, moveSpeed, moveAcceleration, moveDeceleration);
    }

    @Override
    void halt(boolean ordered) {
        halted = ordered;
        if (!halted && unfinished) {
            go();
        }
    }

    @Override
    void stoppedAtLimit() {
        holdHere();
        missed = true;
    }

    @Override
    void tick() {
        if (!halted && unfinished && !servo.profile().running()) {
            unfinished = false;
            if (buffered) {
                buffered = false;
                start(bufferedTarget);
            }
        }
    }

    @Override
    boolean waiting() {
        return !halted && unfinished;
    }

    @Override
    boolean reached() {
        return servo.inPosition() && !buffered && !missed;
    }

    @Override
    int statusBits() {
        return (acknowledged || buffered ? BIT_12 : 0) | (servo.leftBehind() ? BIT_13 : 0);
    }
}
