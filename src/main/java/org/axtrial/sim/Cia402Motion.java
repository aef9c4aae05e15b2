package org.axtrial.sim;

import java.util.Optional;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;

/**
 * What a CiA 402 drive does while operation is enabled: it hands orders to the {@link Cia402Mode} that is on, and looks
 * after what all modes share: halt (controlword bit 8), the ramp before torque is taken away, and limits.
 *
 * <p>Modes 0, 1 and 3 are always there; 4 and 6 where the description declares target torque and homing method.
 */
final class Cia402Motion {

    private static final int PROFILE_POSITION = 1;
    private static final int PROFILE_VELOCITY = 3;
    private static final int PROFILE_TORQUE = 4;
    private static final int HOMING = 6;
    private static final int CONTROL_HALT = 1 << 8;

    private final Firmware firmware;
    private final Servo servo;
    private final MoveSettings settings;
    private final OptionCodes options;
    private final boolean hasTorque;
    private final boolean hasHoming;
    private final IdleMode idle;
    private final ProfilePositionMode position;
    private final ProfileVelocityMode velocity;
    private final ProfileTorqueMode torque;
    private final HomingMode homing;

    private int orderedNumber;
    private int number;
    private Cia402Mode mode;
    private boolean halted;
    private boolean disabling;

    Cia402Motion(DriveDescription description, Firmware firmware) {
        this.firmware = firmware;
        this.servo = firmware.servo;
        this.settings = firmware.settings;
        this.options = firmware.parts.options();
        this.hasTorque = description.value(SignalNames.TARGET_TORQUE).isPresent();
        this.hasHoming = description.value(SignalNames.HOMING_METHOD).isPresent();
        this.idle = new IdleMode(firmware);
        this.position = new ProfilePositionMode(firmware);
        this.velocity = new ProfileVelocityMode(firmware);
        this.torque = new ProfileTorqueMode(firmware);
        this.homing = new HomingMode(firmware);
        this.mode = idle;
    }

    private Optional<Cia402Mode> known(int wanted) {
        return switch (wanted) {
            case 0 -> Optional.of(idle);
            case PROFILE_POSITION -> Optional.of(position);
            case PROFILE_VELOCITY -> Optional.of(velocity);
            case PROFILE_TORQUE -> hasTorque ? Optional.of(torque) : Optional.empty();
            case HOMING -> hasHoming ? Optional.of(homing) : Optional.empty();
            default -> Optional.empty();
        };
    }

    /** Operation has just been enabled. */
    void begin(int control) {
        halted = (control & CONTROL_HALT) != 0;
        disabling = false;
        changeMode();
        mode.begin(halted);
    }

    /** Operation is no longer enabled. */
    void end() {
        mode.end();
        disabling = false;
        changeMode();
    }

    private void changeMode() {
        number = orderedNumber;
        mode = known(number).orElse(idle);
    }

    /** Modes of operation 6060h; false for a mode that the drive does not have. */
    boolean orderMode(int wanted) {
        if (known(wanted).isEmpty()) {
            return false;
        }
        orderedNumber = wanted;
        if (!servo.energised()) {
            changeMode();
        }
        return true;
    }

    boolean targetPosition(double value) {
        position.targetPosition(value);
        return true;
    }

    boolean targetSpeed(double value) {
        double wanted = settings.speedOf(SignalNames.TARGET_SPEED, value);
        if (settings.tooFast(wanted)) {
            return false;
        }
        velocity.targetSpeed(wanted);
        return true;
    }

    boolean targetTorque(double value) {
        torque.targetTorque(settings.torqueOf(SignalNames.TARGET_TORQUE, value));
        return true;
    }

    void settingsChanged(boolean operating) {
        if (operating) {
            mode.settingsChanged();
        }
    }

    void controlWritten(int word, int risen, boolean operating) {
        if ((word & Cia402Mode.CONTROL_BIT_4) == 0) {
            position.handshakeEnded();
        }
        if (operating) {
            halt((word & CONTROL_HALT) != 0);
            mode.control(word, risen);
        }
    }

    private void halt(boolean ordered) {
        if (ordered == halted) {
            return;
        }
        halted = ordered;
        if (halted && options.halt() == OptionCodes.QUICK_RAMP) {
            servo.stopAtOnce(settings.quickStopDeceleration());
        } else if (halted) {
            servo.stop(settings.deceleration());
        }
        mode.halt(halted);
    }

    /** Ramps down; the state machine takes the torque at rest. */
    void rampDownToDisable() {
        if (!disabling) {
            disabling = true;
            mode.end();
            servo.stop(settings.deceleration());
            position.holdHere();
        }
    }

    /** Enable operation came again before the ramp was over. */
    void keepEnabled() {
        if (disabling) {
            disabling = false;
            mode.begin(halted);
        }
    }

    boolean disabling() {
        return disabling;
    }

    void tick() {
        if (number != orderedNumber) {
            mode.end();
            changeMode();
            servo.stop(settings.deceleration());
            mode.begin(halted);
        }
        if (mode.guarded() && firmware.stopAtLimit()) {
            mode.stoppedAtLimit();
        }
        mode.tick();
    }

    /** Whether a step could change something even though the servo rests. */
    boolean waiting() {
        return number != orderedNumber || disabling || mode.waiting();
    }

    /** CiA 402 object 6502h: bit n − 1 for mode n. */
    int supportedModes() {
        int modes = 0;
        for (int wanted = 1; wanted <= HOMING; wanted++) {
            modes |= known(wanted).isPresent() ? 1 << (wanted - 1) : 0;
        }
        return modes;
    }

    int modeDisplay() {
        return number;
    }

    /** The mode specific bits and target reached. */
    int statusBits(boolean enabled) {
        boolean reached = halted ? servo.atStandstill() && !servo.profile().running() : mode.reached();
        return mode.statusBits() | (enabled && reached ? Cia402Mode.BIT_TARGET_REACHED : 0);
    }
}
