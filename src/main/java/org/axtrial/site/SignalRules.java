package org.axtrial.site;

import static org.axtrial.registers.SignalNames.*;

import java.util.List;
import java.util.Set;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;

/** What a signal must be like when its name has a meaning to the tool. */
final class SignalRules {

    private static final Set<String> COUNTS = Set.of(
            POSITION,
            DEMAND_POSITION,
            INTERNAL_POSITION,
            FOLLOWING_ERROR,
            TARGET_POSITION,
            RELATIVE_MOVE,
            ABSOLUTE_MOVE,
            HOME_OFFSET,
            SOFTWARE_LIMIT_MIN,
            SOFTWARE_LIMIT_MAX,
            FOLLOWING_ERROR_WINDOW,
            POSITION_WINDOW,
            PEAK_FOLLOWING_ERROR);
    private static final Set<String> WORDS = Set.of(
            STATUS,
            FAULT_CODE,
            CONTROL,
            MODE,
            MODE_DISPLAY,
            SUPPORTED_MODES,
            COMMAND,
            PROFILE_TYPE,
            HOMING_METHOD,
            DIGITAL_INPUTS,
            QUICK_STOP_OPTION,
            SHUTDOWN_OPTION,
            DISABLE_OPTION,
            HALT_OPTION,
            FAULT_REACTION_OPTION,
            ABORT_CONNECTION_OPTION);
    private static final Set<String> SPEEDS =
            Set.of(SPEED, TARGET_SPEED, SPEED_COMMAND, PROFILE_SPEED, HOMING_SPEED_SWITCH, HOMING_SPEED_ZERO);
    private static final Set<String> ACCELERATIONS =
            Set.of(PROFILE_ACCELERATION, PROFILE_DECELERATION, QUICK_STOP_DECELERATION, HOMING_ACCELERATION);
    private static final Set<String> JERKS = Set.of(PROFILE_JERK);
    private static final Set<String> TORQUES = Set.of(TORQUE, TORQUE_LIMIT, TARGET_TORQUE, TORQUE_SLOPE, PEAK_TORQUE);
    private static final Set<String> TIMES = Set.of(FOLLOWING_ERROR_TIME, POSITION_WINDOW_TIME);

    private static final Set<String> SIGNED = Set.of(
            SPEED,
            TORQUE,
            FOLLOWING_ERROR,
            TARGET_SPEED,
            SPEED_COMMAND,
            RELATIVE_MOVE,
            TARGET_TORQUE,
            HOME_OFFSET,
            SOFTWARE_LIMIT_MIN,
            SOFTWARE_LIMIT_MAX);
    private static final Set<String> WRITTEN = Set.of(
            CONTROL,
            MODE,
            TARGET_POSITION,
            TARGET_SPEED,
            PROFILE_SPEED,
            PROFILE_ACCELERATION,
            PROFILE_DECELERATION,
            TORQUE_LIMIT,
            COMMAND,
            RELATIVE_MOVE,
            ABSOLUTE_MOVE,
            SPEED_COMMAND);
    private static final Set<ValueType> UNSIGNED = Set.of(ValueType.UINT16, ValueType.UINT32);

    private SignalRules() {}

    static void required(YamlMap top, CommandStyle style) {
        YamlMap signals = top.map("signals");
        List<String> needed = SignalNames.required(style);
        List<String> strangers =
                signals.keys().stream().filter(name -> !isKnown(name)).toList();
        for (String name : needed) {
            if (signals.isGiven() && !signals.keys().contains(name)) {
                signals.missing(
                        name,
                        "missing: style " + DriveReader.spelling(style) + " needs this signal"
                                + NearMiss.hint(name, strangers));
            }
        }
    }

    private static boolean isKnown(String name) {
        return COUNTS.contains(name)
                || WORDS.contains(name)
                || SPEEDS.contains(name)
                || ACCELERATIONS.contains(name)
                || JERKS.contains(name)
                || TIMES.contains(name)
                || TORQUES.contains(name);
    }

    static void check(YamlMap map, SignalSpec spec) {
        String name = spec.name();
        if (COUNTS.contains(name)) {
            rawInteger(map, spec, Unit.COUNT);
        } else if (WORDS.contains(name)) {
            rawInteger(map, spec, Unit.ONE);
        } else if (SPEEDS.contains(name)) {
            unit(map, spec, Sense.SPEED);
        } else if (ACCELERATIONS.contains(name)) {
            unit(map, spec, Sense.ACCELERATION);
        } else if (JERKS.contains(name)) {
            unit(map, spec, Sense.JERK);
        } else if (TIMES.contains(name)) {
            unit(map, spec, Sense.TIME);
        } else if (TORQUES.contains(name)) {
            unit(map, spec, Sense.RATIO);
        }
        if (SIGNED.contains(name) && UNSIGNED.contains(spec.type())) {
            map.problem(
                    "type",
                    "expected a signed type, because " + name + " can be negative; found "
                            + spec.type().spelling());
        }
        if (WRITTEN.contains(name) && !spec.writable()) {
            String message = "the tool must write " + name + "; expected access: write";
            if (map.has("access")) {
                map.problem("access", message);
            } else {
                map.missing("access", message);
            }
        }
    }

    private static void unit(YamlMap map, SignalSpec spec, Sense sense) {
        if (!sense.fits(spec.unit())) {
            wrongUnit(map, spec, "expected " + sense.noun() + ", in " + sense.units(true));
        }
    }

    private static void wrongUnit(YamlMap map, SignalSpec spec, String wanted) {
        String found = "the unit of " + spec.name() + " is " + spec.unit().symbol();
        if (map.has("unit")) {
            map.problem("unit", found + "; " + wanted);
        } else {
            map.missing("unit", "missing, so that " + found + "; " + wanted);
        }
    }

    /** Words and counts are used to the last digit: a scale, an offset or a float would round them. */
    private static void rawInteger(YamlMap map, SignalSpec spec, Unit unit) {
        if (spec.unit() != unit) {
            wrongUnit(map, spec, "expected " + unit.symbol());
        }
        if (spec.type().isFloat()) {
            map.problem(
                    "type",
                    "expected an integer type for " + spec.name() + ", found "
                            + spec.type().spelling());
        }
        if (spec.scale() != 1) {
            map.problem(
                    "scale",
                    "expected 1 for " + spec.name() + ", found " + spec.scale()
                            + "; say what a count means in the scale of the axis");
        }
        if (spec.offset() != 0) {
            map.problem("offset", "expected 0 for " + spec.name() + ", found " + spec.offset());
        }
    }
}
