package org.axtrial.sim;

/**
 * Homing (mode 6) by any {@link HomingMethod}. Controlword bit 4 starts and, when it is cleared, ends it; halt ends it
 * too.
 *
 * <p>The switch is looked for at the speed during search for switch. If the end of the switch that counts is passed
 * against the direction of the method, or in it at that speed, the axis turns round until it stands before it; it is then
 * passed once more in the right direction at the speed during search for zero. That passing, or the first index mark
 * after it, is the home position. The axis comes to rest beyond, and the register is defined: home position reads minus
 * home offset.
 *
 * <p>The homing ends with an error at a limit switch towards which it moves, unless the method turns round there for the
 * first time; when it has travelled further than the simulation allows; and when no index mark came within two motor
 * revolutions. Software limits are not heeded.
 */
final class HomingMode extends Cia402Mode {

    private enum Phase {
        /** Nothing was started since the drive was switched on. */
        NOT_STARTED,
        /** Towards the switch, which is not active. */
        APPROACH,
        /** Through the switch to the end that counts. */
        LEAVE,
        /** Back over the end that counts, to stand before it. */
        RETURN,
        /** Over the end that counts, slowly. */
        PASS,
        /** On to the index mark. */
        INDEX,
        /** Found; coming to rest. */
        FOUND,
        DONE,
        INTERRUPTED,
        FAILED
    }

    private static final double INDEX_REVOLUTIONS = 2;

    private final DigitalInputs inputs;
    private final HomingSettings homing;
    private final IndexMark index;
    private final double longestSearch;

    private Phase phase = Phase.NOT_STARTED;
    private HomingMethod method = HomingMethod.of(37);
    private SwitchInput input = SwitchInput.HOME;
    private boolean wasActive;
    private boolean turned;
    private boolean halted;
    private int direction;
    private double lastAngle;
    private double travelled;
    private double travelledInIndex;
    private double home;

    HomingMode(Firmware firmware) {
        super(firmware);
        this.inputs = firmware.parts.inputs();
        this.homing = firmware.parts.homing();
        this.index = firmware.parts.index();
        this.longestSearch = firmware.parts.longestSearch();
    }

    @Override
    void control(int word, int risen) {
        if ((word & CONTROL_BIT_4) == 0) {
            interrupt();
        } else if ((risen & CONTROL_BIT_4) != 0 && !halted && !running()) {
            start();
        }
    }

    @Override
    void end() {
        if (phase == Phase.FOUND) {
            complete();
        } else if (running()) {
            phase = Phase.INTERRUPTED;
        }
    }

    @Override
    void begin(boolean alreadyHalted) {
        halted = alreadyHalted;
    }

    @Override
    void halt(boolean ordered) {
        halted = ordered;
        if (ordered && searching()) {
            phase = Phase.INTERRUPTED;
        }
    }

    private void interrupt() {
        if (searching()) {
            phase = Phase.INTERRUPTED;
            servo.stop(homing.acceleration());
        }
    }

    /** A home position that has been found stays found, whatever is ordered while the axis comes to rest. */
    private boolean searching() {
        return running() && phase != Phase.FOUND;
    }

    private boolean running() {
        return switch (phase) {
            case APPROACH, LEAVE, RETURN, PASS, INDEX, FOUND -> true;
            case NOT_STARTED, DONE, INTERRUPTED, FAILED -> false;
        };
    }

    private void start() {
        if (!HomingMethod.isKnown(homing.method())) {
            phase = Phase.FAILED;
            return;
        }
        method = HomingMethod.of(homing.method());
        turned = false;
        travelled = 0;
        lastAngle = servo.angle();
        firmware.countMotion();
        if (method.input().isPresent()) {
            input = method.input().get();
            wasActive = inputs.active(input);
            if (!wasActive) {
                go(Phase.APPROACH, method.search());
            } else if (method.usesLimit()) {
                go(Phase.PASS, method.last());
            } else {
                go(Phase.LEAVE, method.edge());
            }
        } else if (method.index()) {
            go(Phase.INDEX, method.last());
        } else {
            found(servo.counts());
        }
    }

    private void go(Phase next, int towards) {
        phase = next;
        direction = towards;
        travelledInIndex = 0;
        boolean slow = next == Phase.PASS || next == Phase.INDEX;
        double speed = slow ? homing.speedZero() : homing.speedSwitch();
        servo.keepSpeed(towards * speed, homing.acceleration(), homing.acceleration());
    }

    @Override
    boolean guarded() {
        return false;
    }

    @Override
    void tick() {
        if (!running()) {
            return;
        }
        double angle = servo.angle();
        double before = lastAngle;
        lastAngle = angle;
        if (phase == Phase.FOUND) {
            settle();
            return;
        }
        double moved = Math.abs(angle - before) / servo.radiansPerCount();
        travelled += moved;
        travelledInIndex += moved;
        boolean active = inputs.active(input);
        boolean onTheWay = servo.speed() * direction > 0;
        if (phase == Phase.INDEX) {
            double mark = onTheWay ? index.passed(before, angle) : Double.NaN;
            if (!Double.isNaN(mark)) {
                found(servo.countsAt(mark));
            }
        } else if (active != wasActive) {
            wasActive = active;
            if (onTheWay) {
                crossed(active);
            }
        }
        if (phase != Phase.FOUND) {
            watchTravel();
        }
    }

    /** The switch has become active, or not, in the ordered direction of motion. */
    private void crossed(boolean entered) {
        switch (phase) {
            case APPROACH -> {
                if (entered && direction == method.edge()) {
                    go(Phase.LEAVE, direction);
                } else if (entered) {
                    passedFast();
                }
            }
            case LEAVE -> {
                if (!entered) {
                    passedFast();
                }
            }
            case RETURN -> {
                // Back over the end that counts, so the other way round than it will be passed.
                if (entered == method.leaves()) {
                    go(Phase.PASS, method.last());
                }
            }
            case PASS -> {
                if (entered != method.leaves()) {
                    passedSlowly();
                }
            }
            case NOT_STARTED, INDEX, FOUND, DONE, INTERRUPTED, FAILED -> {}
        }
    }

    private void passedFast() {
        if (direction == method.last()) {
            go(Phase.RETURN, -direction);
        } else {
            go(Phase.PASS, method.last());
        }
    }

    private void passedSlowly() {
        if (method.index()) {
            go(Phase.INDEX, direction);
        } else {
            found(servo.counts());
        }
    }

    private void watchTravel() {
        boolean indexMissing =
                phase == Phase.INDEX && travelledInIndex * servo.radiansPerCount() > INDEX_REVOLUTIONS * 2 * Math.PI;
        if (travelled > longestSearch || indexMissing) {
            fail();
        } else if (inputs.endOfTravel(direction) && !(method.usesLimit() && phase == Phase.APPROACH)) {
            if (method.turns() && !turned && phase == Phase.APPROACH) {
                turned = true;
                go(Phase.APPROACH, -direction);
            } else {
                fail();
            }
        }
    }

    private void found(double counts) {
        home = Math.rint(counts);
        phase = Phase.FOUND;
        servo.stop(homing.acceleration());
    }

    private void fail() {
        phase = Phase.FAILED;
        servo.stop(homing.acceleration());
    }

    private void settle() {
        if (!firmware.moving()) {
            complete();
        }
    }

    private void complete() {
        firmware.position.define(home, -homing.offset());
        phase = Phase.DONE;
    }

    @Override
    boolean waiting() {
        return running();
    }

    @Override
    boolean reached() {
        return switch (phase) {
            case APPROACH, LEAVE, RETURN, PASS, INDEX, FOUND -> false;
            case DONE -> true;
            case NOT_STARTED, INTERRUPTED, FAILED -> !firmware.moving();
        };
    }

    @Override
    int statusBits() {
        return switch (phase) {
            case FOUND, DONE -> BIT_12;
            case FAILED -> BIT_13;
            case NOT_STARTED, APPROACH, LEAVE, RETURN, PASS, INDEX, INTERRUPTED -> 0;
        };
    }
}
