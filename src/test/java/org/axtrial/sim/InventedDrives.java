package org.axtrial.sim;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;

/** Drive types and axes made up for these tests; no real drive has these maps. */
final class InventedDrives {

    static final long COUNTS = 65_536;

    private InventedDrives() {}

    static SignalSpec value(String name, RegisterTable table, int address, ValueType type, double scale, Unit unit) {
        return new SignalSpec(
                name,
                table,
                address,
                type,
                WordOrder.HIGH_FIRST,
                ByteOrder.HIGH_FIRST,
                scale,
                0,
                unit,
                table == RegisterTable.HOLDING,
                type.registers() == 1 ? 6 : 16);
    }

    static SignalSpec readOnly(SignalSpec spec) {
        return new SignalSpec(
                spec.name(),
                spec.table(),
                spec.address(),
                spec.type(),
                spec.wordOrder(),
                spec.byteOrder(),
                spec.scale(),
                spec.offset(),
                spec.unit(),
                false,
                spec.writeFunction());
    }

    static SignalSpec lowWordFirst(SignalSpec spec) {
        return new SignalSpec(
                spec.name(),
                spec.table(),
                spec.address(),
                spec.type(),
                WordOrder.LOW_FIRST,
                spec.byteOrder(),
                spec.scale(),
                spec.offset(),
                spec.unit(),
                spec.writable(),
                spec.writeFunction());
    }

    private static void in(Map<String, SignalSpec> map, String name, int address, ValueType type, double s, Unit unit) {
        map.put(name, value(name, RegisterTable.INPUT, address, type, s, unit));
    }

    private static void out(Map<String, SignalSpec> map, String name, int address, ValueType type, double s, Unit u) {
        map.put(name, value(name, RegisterTable.HOLDING, address, type, s, u));
    }

    private static Map<String, SignalSpec> sampled() {
        Map<String, SignalSpec> map = new LinkedHashMap<>();
        in(map, "position", 0, ValueType.INT32, 1, Unit.COUNT);
        in(map, "demandPosition", 2, ValueType.INT32, 1, Unit.COUNT);
        in(map, "speed", 4, ValueType.INT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        in(map, "torque", 6, ValueType.INT16, 1, Unit.PER_MILLE);
        in(map, "followingError", 7, ValueType.INT32, 1, Unit.COUNT);
        in(map, "status", 9, ValueType.UINT16, 1, Unit.ONE);
        in(map, "faultCode", 10, ValueType.UINT16, 1, Unit.ONE);
        out(map, "profileSpeed", 30, ValueType.UINT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        out(map, "profileAcceleration", 32, ValueType.UINT32, 1, Unit.REVOLUTION_PER_MINUTE_PER_SECOND);
        out(map, "torqueLimit", 34, ValueType.UINT16, 1, Unit.PER_MILLE);
        return map;
    }

    /** CiA 402 style: live values in input registers, commands in holding registers. */
    static DriveDescription cia402() {
        Map<String, SignalSpec> map = sampled();
        in(map, "modeDisplay", 12, ValueType.INT16, 1, Unit.ONE);
        out(map, "control", 20, ValueType.UINT16, 1, Unit.ONE);
        out(map, "mode", 21, ValueType.INT16, 1, Unit.ONE);
        out(map, "targetPosition", 22, ValueType.INT32, 1, Unit.COUNT);
        out(map, "targetSpeed", 24, ValueType.INT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        return description(CommandStyle.CIA402, map, Map.of(), Map.of(), Optional.empty());
    }

    /** CiA 402 style with every object that the simulated drive knows. */
    static DriveDescription wholeCia402() {
        return wholeCia402(Optional.empty());
    }

    /** As {@link #wholeCia402()}, with a watchdog. */
    static DriveDescription wholeCia402(Optional<DriveDescription.Watchdog> watchdog) {
        Map<String, SignalSpec> map = new LinkedHashMap<>(cia402().signals());
        in(map, "supportedModes", 14, ValueType.UINT32, 1, Unit.ONE);
        in(map, "digitalInputs", 13, ValueType.UINT16, 1, Unit.ONE);
        out(map, "profileDeceleration", 100, ValueType.UINT32, 1, Unit.REVOLUTION_PER_MINUTE_PER_SECOND);
        out(map, "quickStopDeceleration", 102, ValueType.UINT32, 1, Unit.REVOLUTION_PER_MINUTE_PER_SECOND);
        out(map, "profileType", 104, ValueType.INT16, 1, Unit.ONE);
        out(map, "profileJerk", 105, ValueType.UINT32, 1, Unit.REVOLUTION_PER_SECOND_CUBED);
        out(map, "targetTorque", 107, ValueType.INT16, 1, Unit.PER_MILLE);
        out(map, "torqueSlope", 108, ValueType.UINT32, 1, Unit.PER_MILLE);
        out(map, "homingMethod", 110, ValueType.INT16, 1, Unit.ONE);
        out(map, "homingSpeedSwitch", 111, ValueType.UINT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        out(map, "homingSpeedZero", 113, ValueType.UINT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        out(map, "homingAcceleration", 115, ValueType.UINT32, 1, Unit.REVOLUTION_PER_MINUTE_PER_SECOND);
        out(map, "homeOffset", 117, ValueType.INT32, 1, Unit.COUNT);
        out(map, "softwareLimitMin", 119, ValueType.INT32, 1, Unit.COUNT);
        out(map, "softwareLimitMax", 121, ValueType.INT32, 1, Unit.COUNT);
        out(map, "followingErrorWindow", 123, ValueType.UINT32, 1, Unit.COUNT);
        out(map, "followingErrorTime", 125, ValueType.UINT16, 1, Unit.MILLISECOND);
        out(map, "positionWindow", 126, ValueType.UINT32, 1, Unit.COUNT);
        out(map, "positionWindowTime", 128, ValueType.UINT16, 1, Unit.MILLISECOND);
        out(map, "quickStopOption", 129, ValueType.INT16, 1, Unit.ONE);
        out(map, "shutdownOption", 130, ValueType.INT16, 1, Unit.ONE);
        out(map, "disableOption", 131, ValueType.INT16, 1, Unit.ONE);
        out(map, "haltOption", 132, ValueType.INT16, 1, Unit.ONE);
        out(map, "faultReactionOption", 133, ValueType.INT16, 1, Unit.ONE);
        out(map, "abortConnectionOption", 134, ValueType.INT16, 1, Unit.ONE);
        out(map, "saveParameters", 135, ValueType.UINT32, 1, Unit.ONE);
        // Object 1010h:1 takes the letters "save" and reads 1 where the drive saves on command (CiA 301, from memory).
        DriveDescription.SaveCommand save = new DriveDescription.SaveCommand(
                Objects.requireNonNull(map.get("saveParameters")),
                0x6576_6173L,
                OptionalLong.of(1),
                Duration.ofSeconds(1));
        return description(CommandStyle.CIA402, map, Map.of(), Map.of(), watchdog)
                .withSaveCommand(save);
    }

    /**
     * Switches of an axis of 10 motor revolutions: limit switches at both ends, the home switch in the middle, the index
     * mark 0.3 revolutions beyond each whole one.
     */
    static SimulationSpec.Reference switches() {
        return reference(new SimulationSpec.SwitchRange(-0.5, 0.5, 0.01));
    }

    static SimulationSpec.Reference reference(SimulationSpec.SwitchRange home) {
        return new SimulationSpec.Reference(
                Optional.of(SimulationSpec.SwitchRange.below(-5, 0.01)),
                Optional.of(SimulationSpec.SwitchRange.above(5, 0.01)),
                Optional.of(home),
                0.3,
                false,
                100,
                OptionalDouble.empty());
    }

    /** Direct style with the low word first. */
    static DriveDescription direct(Optional<DriveDescription.Watchdog> watchdog) {
        Map<String, SignalSpec> map = sampled();
        out(map, "command", 20, ValueType.UINT16, 1, Unit.ONE);
        out(map, "relativeMove", 22, ValueType.INT32, 1, Unit.COUNT);
        out(map, "absoluteMove", 24, ValueType.INT32, 1, Unit.COUNT);
        out(map, "speedCommand", 26, ValueType.INT32, 0.01, Unit.REVOLUTION_PER_MINUTE);
        map.replaceAll((name, spec) -> lowWordFirst(spec));
        return description(
                CommandStyle.DIRECT,
                map,
                Map.of("ready", 0, "enabled", 1, "fault", 2, "moving", 3, "inPosition", 4),
                Map.of("enable", 1, "disable", 2, "stop", 3, "resetFault", 4),
                watchdog);
    }

    static DriveDescription direct() {
        return direct(Optional.empty());
    }

    private static DriveDescription description(
            CommandStyle style,
            Map<String, SignalSpec> signals,
            Map<String, Integer> statusBits,
            Map<String, Integer> commands,
            Optional<DriveDescription.Watchdog> watchdog) {
        return new DriveDescription(
                "invented " + style,
                style,
                signals,
                statusBits,
                commands,
                List.of(new DriveDescription.IdentityConstant(
                        readOnly(value("deviceCode", RegisterTable.HOLDING, 50, ValueType.UINT32, 1, Unit.ONE)),
                        0x1234_5678)),
                List.of(
                        value("notch", RegisterTable.HOLDING, 60, ValueType.FLOAT32, 1, Unit.ONE),
                        value("offset", RegisterTable.HOLDING, 62, ValueType.INT16, 0.1, Unit.ONE)),
                125,
                2,
                watchdog);
    }

    static SimulationSpec.Motor motor() {
        return new SimulationSpec.Motor(2.4, 300, 3e-4, 3000);
    }

    /** A disc behind no gearbox, with some friction. */
    static SimulationSpec.Load disc() {
        return new SimulationSpec.RotaryLoad(2e-4, 1, 0, 1e-3, 0.05);
    }

    static SimulationSpec.Feedback feedback() {
        return new SimulationSpec.Feedback(COUNTS, 1, 1, 0);
    }

    static SimulationSpec.Loops loops(double positionGain, double feedForward) {
        return new SimulationSpec.Loops(1000, 100, positionGain, feedForward, 20, Duration.ofMillis(5), 20.0 * COUNTS);
    }

    static SimulationSpec.Wire wire() {
        return new SimulationSpec.Wire(Duration.ofMillis(1), Duration.ofMillis(3));
    }

    static SimulationSpec axis() {
        return axis(loops(50, 1));
    }

    static SimulationSpec axis(SimulationSpec.Loops loops) {
        return new SimulationSpec(motor(), disc(), feedback(), loops, wire(), 7);
    }

    static SimulationSpec axis(SimulationSpec.Load load) {
        return new SimulationSpec(motor(), load, feedback(), loops(50, 1), wire(), 7);
    }
}
