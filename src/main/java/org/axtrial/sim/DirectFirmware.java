package org.axtrial.sim;

import java.util.Map;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;

/**
 * A drive whose motion registers start motion when they are written: a repeated write repeats the move. A relative move
 * that arrives while another move runs counts from that one's target, otherwise from the demand at that moment.
 */
final class DirectFirmware extends Firmware {

    private enum State {
        POWERING_UP,
        READY,
        ENABLING,
        ENABLED,
        REACTING,
        FAULT
    }

    private final Map<String, Integer> commands;
    private final Map<String, Integer> statusBits;
    private State state = State.POWERING_UP;
    private int countdown;

    DirectFirmware(DriveDescription description, DriveParts parts) {
        super(parts);
        this.commands = description.commands();
        this.statusBits = description.statusBits();
        this.countdown = servo.steps(POWER_UP);
    }

    @Override
    boolean ordered(String signal, double value) {
        return switch (signal) {
            case SignalNames.COMMAND -> command((int) value);
            case SignalNames.RELATIVE_MOVE -> state == State.ENABLED && move(base() + Math.rint(value));
            case SignalNames.ABSOLUTE_MOVE ->
                state == State.ENABLED
                        && move(position.targetFrom(servo.profile().position(), value));
            case SignalNames.SPEED_COMMAND -> speed(settings.speedOf(signal, value));
            default -> true;
        };
    }

    private boolean command(int value) {
        if (is(value, "enable")) {
            return enable();
        }
        if (is(value, "disable")) {
            if (state == State.ENABLED || state == State.ENABLING) {
                state = State.READY;
                countdown = 0;
                servo.release();
            }
            return true;
        }
        if (is(value, "stop")) {
            if (state == State.ENABLED) {
                servo.stop(settings.deceleration());
            }
            return true;
        }
        if (is(value, "resetFault")) {
            if (state == State.FAULT) {
                clearFault();
                state = State.READY;
            }
            return true;
        }
        return false;
    }

    private boolean is(int value, String meaning) {
        Integer declared = commands.get(meaning);
        return declared != null && declared == value;
    }

    private boolean enable() {
        switch (state) {
            case READY -> {
                state = State.ENABLING;
                countdown = servo.steps(ENABLE_DELAY);
                return true;
            }
            case ENABLING, ENABLED -> {
                return true;
            }
            case POWERING_UP, REACTING, FAULT -> {
                return false;
            }
        }
        throw new IllegalStateException("unknown state " + state);
    }

    private double base() {
        double target = servo.profile().target();
        return Math.rint(Double.isNaN(target) ? servo.profile().position() : target);
    }

    private boolean move(double wanted) {
        double target = limits.clip(wanted);
        double way = Math.signum(target - servo.profile().position());
        if (way != 0 && limits.block(way)) {
            return false;
        }
        countMotion();
        servo.move(target, settings.speed(), settings.acceleration(), settings.deceleration());
        return true;
    }

    private boolean speed(double wanted) {
        boolean blocked = wanted != 0 && limits.block(Math.signum(wanted));
        if (settings.tooFast(wanted) || blocked || (state != State.ENABLED && wanted != 0)) {
            return false;
        }
        if (wanted != 0) {
            countMotion();
        }
        if (state == State.ENABLED) {
            keepSpeed(wanted);
        }
        return true;
    }

    @Override
    void reactToFault() {
        if (servo.energised()) {
            state = State.REACTING;
            countdown = reactionSteps(settings.quickStopDeceleration());
            servo.stopFromShaft(settings.quickStopDeceleration());
        } else {
            state = State.FAULT;
            countdown = 0;
        }
    }

    @Override
    void tick() {
        boolean due = countdown > 0 && --countdown == 0;
        switch (state) {
            case POWERING_UP -> {
                if (due) {
                    state = State.READY;
                }
            }
            case ENABLING -> {
                if (due) {
                    state = State.ENABLED;
                    servo.energise(settings.deceleration());
                }
            }
            case ENABLED -> {
                supervise();
                stopAtLimit();
            }
            case REACTING -> {
                if (due || !moving()) {
                    state = State.FAULT;
                    countdown = 0;
                    servo.release();
                }
            }
            case READY, FAULT -> {}
        }
    }

    @Override
    boolean waiting() {
        return countdown > 0 || state == State.REACTING;
    }

    @Override
    int statusWord() {
        boolean fault = state == State.FAULT || state == State.REACTING;
        int word = 0;
        word |= bit("ready", !fault && state != State.POWERING_UP);
        word |= bit("enabled", state == State.ENABLED);
        word |= bit("fault", fault);
        word |= bit("moving", moving());
        word |= bit("inPosition", servo.inPosition());
        return word;
    }

    private int bit(String meaning, boolean set) {
        Integer number = statusBits.get(meaning);
        return number == null || !set ? 0 : 1 << number;
    }
}
