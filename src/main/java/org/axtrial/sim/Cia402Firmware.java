package org.axtrial.sim;

import java.time.Duration;
import java.util.EnumSet;
import java.util.Set;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;

/**
 * A drive that is commanded by controlword and statusword (CiA 402, IEC 61800-7-201): the state machine. What it does
 * while operation is enabled is the duty of {@link Cia402Motion}; how it leaves that state is told by the {@link
 * OptionCodes}. A quick stop, and a fault reaction, by quick stop ramp begin at once and heed no jerk limit.
 */
final class Cia402Firmware extends Firmware {

    private static final int BIT_VOLTAGE_ENABLED = 1 << 4;
    private static final int BIT_REMOTE = 1 << 9;
    private static final int BIT_INTERNAL_LIMIT = 1 << 11;
    private static final int CONTROL_FAULT_RESET = 1 << 7;
    private static final Duration TRANSITION = Duration.ofMillis(1);
    private static final Set<Cia402State> WITH_TORQUE =
            EnumSet.of(Cia402State.OPERATION_ENABLED, Cia402State.QUICK_STOP_ACTIVE, Cia402State.FAULT_REACTION_ACTIVE);

    private final OptionCodes options;
    private final Cia402Motion motion;
    private Cia402State state = Cia402State.NOT_READY_TO_SWITCH_ON;
    private Cia402State next = Cia402State.SWITCH_ON_DISABLED;
    private int countdown;
    private int control;
    private int reaction;
    private Cia402State afterRamp = Cia402State.SWITCHED_ON;

    Cia402Firmware(DriveDescription description, DriveParts parts) {
        super(parts);
        this.options = parts.options();
        this.motion = new Cia402Motion(description, this);
        this.countdown = servo.steps(POWER_UP);
    }

    @Override
    void settingsChanged() {
        motion.settingsChanged(operating());
    }

    @Override
    boolean ordered(String signal, double value) {
        return switch (signal) {
            case SignalNames.CONTROL -> controlWritten((int) value & 0xFFFF);
            case SignalNames.MODE -> motion.orderMode((int) value);
            case SignalNames.TARGET_POSITION -> motion.targetPosition(value);
            case SignalNames.TARGET_SPEED -> motion.targetSpeed(value);
            case SignalNames.TARGET_TORQUE -> motion.targetTorque(value);
            default -> true;
        };
    }

    private boolean controlWritten(int word) {
        int risen = word & ~control;
        control = word;
        if (state == Cia402State.FAULT && (risen & CONTROL_FAULT_RESET) != 0) {
            clearFault();
            enter(Cia402State.SWITCH_ON_DISABLED);
        }
        obey();
        motion.controlWritten(word, risen, operating());
        return true;
    }

    /** Whether set-points are followed. */
    private boolean operating() {
        return state == Cia402State.OPERATION_ENABLED && !motion.disabling();
    }

    /** Turns the standing command into the transition that the present state allows for it. */
    private void obey() {
        Cia402Command command = Cia402Command.of(control);
        boolean off = command == Cia402Command.DISABLE_VOLTAGE;
        boolean quick = command == Cia402Command.QUICK_STOP;
        switch (state) {
            case SWITCH_ON_DISABLED ->
                aim(command == Cia402Command.SHUTDOWN, Cia402State.READY_TO_SWITCH_ON, TRANSITION);
            case READY_TO_SWITCH_ON -> {
                if (off || quick) {
                    enter(Cia402State.SWITCH_ON_DISABLED);
                } else {
                    boolean on = command == Cia402Command.SWITCH_ON || command == Cia402Command.ENABLE_OPERATION;
                    aim(on, Cia402State.SWITCHED_ON, TRANSITION);
                }
            }
            case SWITCHED_ON -> {
                if (off || quick) {
                    enter(Cia402State.SWITCH_ON_DISABLED);
                } else if (command == Cia402Command.SHUTDOWN) {
                    enter(Cia402State.READY_TO_SWITCH_ON);
                } else {
                    aim(command == Cia402Command.ENABLE_OPERATION, Cia402State.OPERATION_ENABLED, ENABLE_DELAY);
                }
            }
            case OPERATION_ENABLED -> obeyEnabled(command);
            case QUICK_STOP_ACTIVE -> {
                if (off) {
                    enter(Cia402State.SWITCH_ON_DISABLED);
                } else if (command == Cia402Command.ENABLE_OPERATION && staysInQuickStop()) {
                    enter(Cia402State.OPERATION_ENABLED);
                }
            }
            case NOT_READY_TO_SWITCH_ON, FAULT_REACTION_ACTIVE, FAULT -> {}
        }
    }

    private void obeyEnabled(Cia402Command command) {
        switch (command) {
            case DISABLE_VOLTAGE -> enter(Cia402State.SWITCH_ON_DISABLED);
            case SHUTDOWN -> leave(Cia402State.READY_TO_SWITCH_ON, options.shutdown());
            case QUICK_STOP -> quickStop();
            case SWITCH_ON -> leave(Cia402State.SWITCHED_ON, options.disableOperation());
            case ENABLE_OPERATION -> motion.keepEnabled();
            case NONE -> {}
        }
    }

    private void leave(Cia402State to, int option) {
        if (option == OptionCodes.TORQUE_OFF) {
            enter(to);
        } else {
            afterRamp = to;
            motion.rampDownToDisable();
        }
    }

    private void quickStop() {
        boolean torqueOff = options.quickStop() == OptionCodes.TORQUE_OFF;
        enter(torqueOff ? Cia402State.SWITCH_ON_DISABLED : Cia402State.QUICK_STOP_ACTIVE);
    }

    private boolean staysInQuickStop() {
        int option = options.quickStop();
        return option == OptionCodes.RAMP_AND_STAY || option == OptionCodes.QUICK_RAMP_AND_STAY;
    }

    private void brakeForQuickStop() {
        int option = options.quickStop();
        if (option == OptionCodes.RAMP || option == OptionCodes.RAMP_AND_STAY) {
            servo.stop(settings.deceleration());
        } else {
            servo.stopAtOnce(settings.quickStopDeceleration());
        }
    }

    private void aim(boolean ordered, Cia402State to, Duration delay) {
        if (!ordered) {
            countdown = 0;
        } else if (countdown == 0 || next != to) {
            next = to;
            countdown = servo.steps(delay);
        }
    }

    private void enter(Cia402State entered) {
        state = entered;
        countdown = 0;
        if (entered == Cia402State.OPERATION_ENABLED) {
            servo.energise(settings.deceleration());
            motion.begin(control);
        } else {
            motion.end();
            if (entered == Cia402State.QUICK_STOP_ACTIVE) {
                brakeForQuickStop();
            } else if (!WITH_TORQUE.contains(entered)) {
                servo.release();
            }
        }
    }

    @Override
    void reactToFault() {
        if (servo.energised() && options.faultReaction() != OptionCodes.TORQUE_OFF) {
            boolean quick = options.faultReaction() == OptionCodes.QUICK_RAMP;
            double rate = quick ? settings.quickStopDeceleration() : settings.deceleration();
            reaction = reactionSteps(rate);
            servo.stopFromShaft(rate);
            enter(Cia402State.FAULT_REACTION_ACTIVE);
        } else {
            enter(Cia402State.FAULT);
        }
    }

    /** As abort connection option code 6007h says. */
    @Override
    void connectionLost() {
        switch (options.abortConnection()) {
            case OptionCodes.FAULT -> super.connectionLost();
            case OptionCodes.DISABLE_VOLTAGE -> enter(Cia402State.SWITCH_ON_DISABLED);
            case OptionCodes.QUICK_STOP -> {
                if (state == Cia402State.OPERATION_ENABLED) {
                    quickStop();
                }
            }
            default -> {}
        }
    }

    @Override
    void tick() {
        if (countdown > 0 && --countdown == 0) {
            enter(next);
            obey();
        }
        switch (state) {
            case OPERATION_ENABLED -> {
                supervise();
                if (motion.disabling() && !moving()) {
                    enter(afterRamp);
                    obey();
                } else if (operating()) {
                    motion.tick();
                }
            }
            case QUICK_STOP_ACTIVE -> {
                supervise();
                if (state == Cia402State.QUICK_STOP_ACTIVE && !moving() && !staysInQuickStop()) {
                    enter(Cia402State.SWITCH_ON_DISABLED);
                    obey();
                }
            }
            case FAULT_REACTION_ACTIVE -> {
                reaction--;
                if (!moving() || reaction <= 0) {
                    enter(Cia402State.FAULT);
                }
            }
            case NOT_READY_TO_SWITCH_ON, SWITCH_ON_DISABLED, READY_TO_SWITCH_ON, SWITCHED_ON, FAULT -> {}
        }
    }

    @Override
    boolean waiting() {
        return countdown > 0
                || (state == Cia402State.QUICK_STOP_ACTIVE && (moving() || !staysInQuickStop()))
                || state == Cia402State.FAULT_REACTION_ACTIVE
                || (state == Cia402State.OPERATION_ENABLED && motion.waiting());
    }

    @Override
    int statusWord() {
        int word = state.bits() | BIT_REMOTE;
        if (state != Cia402State.NOT_READY_TO_SWITCH_ON) {
            word |= BIT_VOLTAGE_ENABLED;
        }
        if (servo.torqueLimited() || limits.active()) {
            word |= BIT_INTERNAL_LIMIT;
        }
        return word | motion.statusBits(state == Cia402State.OPERATION_ENABLED);
    }

    @Override
    int supportedModes() {
        return motion.supportedModes();
    }

    @Override
    int modeDisplay() {
        return motion.modeDisplay();
    }
}
