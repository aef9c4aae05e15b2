package org.axtrial.drive;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;

/** Two register maps invented for the tests. */
final class Maps {

    static final int CONTROL = 0;
    static final int MODE = 1;
    static final int MODE_DISPLAY = 101;
    static final int STATUS = 100;
    static final int FAULT_CODE = 110;

    private Maps() {}

    static DriveDescription cia402() {
        return description(
                CommandStyle.CIA402,
                List.of(
                        written("control", CONTROL, ValueType.UINT16, Unit.ONE, 6),
                        written("mode", MODE, ValueType.INT16, Unit.ONE, 6),
                        written("targetSpeed", 8, ValueType.INT32, Unit.COUNT_PER_SECOND, 16),
                        written("targetPosition", 10, ValueType.INT32, Unit.COUNT, 16),
                        written("profileSpeed", 12, ValueType.UINT32, Unit.COUNT_PER_SECOND, 16),
                        written("profileAcceleration", 14, ValueType.UINT32, Unit.COUNT_PER_SECOND_SQUARED, 16),
                        written("profileDeceleration", 16, ValueType.UINT32, Unit.COUNT_PER_SECOND_SQUARED, 16),
                        written("torqueLimit", 18, ValueType.UINT16, Unit.PER_MILLE, 16),
                        shown("status", STATUS, ValueType.UINT16, 1, Unit.ONE),
                        shown("modeDisplay", MODE_DISPLAY, ValueType.INT16, 1, Unit.ONE),
                        shown("position", 102, ValueType.INT32, 1, Unit.COUNT),
                        shown("demandPosition", 104, ValueType.INT32, 1, Unit.COUNT),
                        shown("speed", 106, ValueType.INT32, 1, Unit.COUNT_PER_SECOND),
                        shown("torque", 108, ValueType.INT16, 0.1, Unit.PERCENT),
                        shown("faultCode", FAULT_CODE, ValueType.UINT16, 1, Unit.ONE)),
                Map.of(),
                Map.of());
    }

    static DriveDescription direct() {
        return description(
                CommandStyle.DIRECT,
                List.of(
                        written("command", 0, ValueType.UINT16, Unit.ONE, 6),
                        written("relativeMove", 2, ValueType.INT16, Unit.COUNT, 6),
                        written("absoluteMove", 3, ValueType.INT16, Unit.COUNT, 16),
                        written("speedCommand", 4, ValueType.INT16, Unit.REVOLUTION_PER_MINUTE, 6),
                        written("profileSpeed", 5, ValueType.UINT16, Unit.REVOLUTION_PER_MINUTE, 16),
                        written("profileAcceleration", 6, ValueType.UINT16, Unit.REVOLUTION_PER_MINUTE_PER_SECOND, 16),
                        shown("status", STATUS, ValueType.UINT16, 1, Unit.ONE),
                        shown("position", 101, ValueType.INT16, 1, Unit.COUNT),
                        shown("speed", 102, ValueType.INT16, 0.5, Unit.REVOLUTION_PER_MINUTE),
                        shown("torque", 103, ValueType.INT16, 1, Unit.PERCENT),
                        shown("faultCode", FAULT_CODE, ValueType.UINT16, 1, Unit.ONE)),
                Map.of("enabled", 1, "fault", 2, "moving", 3, "inPosition", 4),
                Map.of("enable", 1, "disable", 2, "stop", 3, "resetFault", 4));
    }

    static DriveDescription description(
            CommandStyle style, List<SignalSpec> signals, Map<String, Integer> bits, Map<String, Integer> commands) {
        Map<String, SignalSpec> byName = new LinkedHashMap<>();
        signals.forEach(signal -> byName.put(signal.name(), signal));
        return new DriveDescription(
                "invented",
                style,
                byName,
                bits,
                commands,
                List.of(),
                List.of(shown("rating", 300, ValueType.UINT16, 0.01, Unit.NEWTON_METRE)),
                125,
                1,
                Optional.empty());
    }

    /** The same with homing method and speeds. */
    static DriveDescription cia402WithHoming() {
        List<SignalSpec> signals = new ArrayList<>(cia402().signals().values());
        signals.add(written("homingMethod", 401));
        signals.add(written("homingSpeedSwitch", 402, ValueType.UINT16, Unit.REVOLUTION_PER_MINUTE, 6));
        signals.add(written("homingSpeedZero", 403, ValueType.UINT16, Unit.REVOLUTION_PER_MINUTE, 6));
        return description(CommandStyle.CIA402, signals, Map.of(), Map.of());
    }

    /** A register of one word that the tool may write. */
    static SignalSpec written(String name, int address) {
        return written(name, address, ValueType.UINT16, Unit.ONE, 6);
    }

    static SignalSpec shown(String name, int address, ValueType type, double scale, Unit unit) {
        return spec(name, address, type, scale, unit, false, type.registers() == 1 ? 6 : 16);
    }

    private static SignalSpec written(String name, int address, ValueType type, Unit unit, int function) {
        return spec(name, address, type, 1, unit, true, function);
    }

    private static SignalSpec spec(
            String name, int address, ValueType type, double scale, Unit unit, boolean writable, int function) {
        return new SignalSpec(
                name,
                RegisterTable.HOLDING,
                address,
                type,
                WordOrder.HIGH_FIRST,
                ByteOrder.HIGH_FIRST,
                scale,
                0,
                unit,
                writable,
                function);
    }
}
