package org.axtrial.sim;

import java.util.Set;
import org.axtrial.registers.SignalNames;

/** Method, speeds, acceleration and offset of a homing, in counts and seconds. */
final class HomingSettings implements Settings {

    private static final Set<String> NAMES = Set.of(
            SignalNames.HOMING_METHOD,
            SignalNames.HOMING_SPEED_SWITCH,
            SignalNames.HOMING_SPEED_ZERO,
            SignalNames.HOMING_ACCELERATION,
            SignalNames.HOME_OFFSET);

    private final ShaftScale scale;
    private final double mostSpeed;

    private int method;
    private double speedSwitch;
    private double speedZero;
    private double acceleration;
    private double offset;

    /** No method; a twentieth of the highest speed for the switch, a hundredth for zero. */
    HomingSettings(ShaftScale scale, double mostSpeed) {
        this.scale = scale;
        this.mostSpeed = mostSpeed;
        this.speedSwitch = mostSpeed / 20;
        this.speedZero = mostSpeed / 100;
        this.acceleration = mostSpeed;
    }

    @Override
    public boolean has(String name) {
        return NAMES.contains(name);
    }

    @Override
    public double start(String name) {
        double factor = scale.factor(name);
        return switch (name) {
            case SignalNames.HOMING_METHOD -> method;
            case SignalNames.HOMING_SPEED_SWITCH -> speedSwitch / factor;
            case SignalNames.HOMING_SPEED_ZERO -> speedZero / factor;
            case SignalNames.HOMING_ACCELERATION -> acceleration / factor;
            case SignalNames.HOME_OFFSET -> offset;
            default -> throw Settings.foreign(name);
        };
    }

    /** Refuses a method that the drive does not know, and speeds and accelerations that are none. */
    @Override
    public boolean accept(String name, double value) {
        double scaled = value * scale.factor(name);
        switch (name) {
            case SignalNames.HOMING_METHOD -> {
                if (value != 0 && !HomingMethod.isKnown((int) value)) {
                    return false;
                }
                method = (int) value;
            }
            case SignalNames.HOME_OFFSET -> offset = Math.rint(value);
            case SignalNames.HOMING_ACCELERATION -> {
                if (!(scaled > 0)) {
                    return false;
                }
                acceleration = scaled;
            }
            case SignalNames.HOMING_SPEED_SWITCH, SignalNames.HOMING_SPEED_ZERO -> {
                if (!(scaled > 0 && scaled <= mostSpeed)) {
                    return false;
                }
                if (name.equals(SignalNames.HOMING_SPEED_ZERO)) {
                    speedZero = scaled;
                } else {
                    speedSwitch = scaled;
                }
            }
            default -> throw Settings.foreign(name);
        }
        return true;
    }

    /** 0 when none has been chosen. */
    int method() {
        return method;
    }

    double speedSwitch() {
        return speedSwitch;
    }

    double speedZero() {
        return speedZero;
    }

    double acceleration() {
        return acceleration;
    }

    /** Register counts from the home position to the zero of the register. */
    double offset() {
        return offset;
    }
}
