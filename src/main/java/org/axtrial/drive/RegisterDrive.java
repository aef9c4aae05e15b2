package org.axtrial.drive;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.TimeSource;

/** A drive behind registers: looks and units are the same for all, commands go by its style. */
final class RegisterDrive implements Drive {

    private final DriveRegisters registers;
    private final MotionCommands commands;
    private final List<SignalSpec> sampled;
    private final Map<String, SignalSpec> readable;
    private final DriveUnits units;
    private final KeepAlive keepAlive;
    private final ParameterWrite parameterWrite;
    private final ParameterSave parameterSave;
    private final PeakLatches peakLatches;

    RegisterDrive(RegisterLink link, DriveDescription description, TimeSource time) {
        refuseIncomplete(description);
        this.registers = new DriveRegisters(link, description);
        this.commands = switch (description.style()) {
            case CIA402 -> new Cia402Commands(registers, time);
            case DIRECT -> new DirectCommands(registers, time);
        };
        this.sampled = SignalNames.SAMPLED.stream()
                .filter(description::has)
                .map(description::signal)
                .toList();
        this.readable = readable(description);
        this.units = units(description);
        this.keepAlive = new KeepAlive(registers, time);
        this.parameterWrite = new ParameterWrite(registers, readable);
        this.parameterSave = new ParameterSave(registers, time);
        this.peakLatches = new PeakLatches(registers);
    }

    @Override
    public DriveUnits units() {
        return units;
    }

    @Override
    public Sample sample() throws DriveException {
        keepAlive.looked();
        DriveRegisters.Look look = registers.read(sampled);
        Map<String, Double> values = new HashMap<>();
        for (SignalSpec signal : sampled) {
            values.put(signal.name(), registers.value(signal, registers.words(look, signal)));
        }
        DriveState state = commands.state(raw(look, SignalNames.STATUS), (int) raw(look, SignalNames.FAULT_CODE));
        return new Sample(values, state, look.sentNanos(), look.repliedNanos());
    }

    @Override
    public double read(String name) throws DriveException {
        return registers.read(declared(name));
    }

    private SignalSpec declared(String name) {
        SignalSpec signal = readable.get(name);
        if (signal == null) {
            throw new IllegalArgumentException(
                    "drive type " + registers.description().type() + " declares no \"" + name + "\"; "
                            + NearMiss.hintOrAll(name, readable.keySet()));
        }
        return signal;
    }

    @Override
    public double nearest(String name, double value) {
        return parameterWrite.nearest(name, value);
    }

    @Override
    public Unit unit(String name) {
        return declared(name).unit();
    }

    @Override
    public void save(String name) throws DriveException, InterruptedException {
        parameterSave.save(name);
    }

    @Override
    public void clearPeaks() throws DriveException {
        peakLatches.clear();
    }

    @Override
    public List<DrivePeak> peaks() throws DriveException {
        return peakLatches.read();
    }

    @Override
    public double write(String name, double value) throws DriveException {
        return parameterWrite.write(name, value);
    }

    @Override
    public void enable(Duration within) throws DriveException, InterruptedException {
        commands.enable(within);
    }

    @Override
    public void disable(Duration within) throws DriveException, InterruptedException {
        commands.disable(within);
    }

    @Override
    public void resetFault(Duration within) throws DriveException, InterruptedException {
        commands.resetFault(within);
    }

    @Override
    public Started startRelative(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        return commands.startRelative(counts, limits);
    }

    @Override
    public Started startRelativeTwice(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        return commands.startRelativeTwice(counts, limits);
    }

    @Override
    public void drop() {
        registers.link().drop();
    }

    @Override
    public List<String> parameterNames() {
        DriveDescription description = registers.description();
        return Stream.concat(
                        description.identity().stream()
                                .map(constant -> constant.signal().name()),
                        description.parameters().stream().map(SignalSpec::name))
                .distinct()
                .toList();
    }

    @Override
    public Started startAbsolute(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        return commands.startAbsolute(counts, limits);
    }

    @Override
    public Started startSpeed(double speed, MotionLimits limits) throws DriveException, InterruptedException {
        return commands.startSpeed(speed, limits);
    }

    @Override
    public Started startHoming() throws DriveException, InterruptedException {
        return commands.startHoming();
    }

    @Override
    public Homing homing(DriveState state) {
        return commands.homing(state);
    }

    @Override
    public Optional<Quantity> homingSpeed() throws DriveException {
        Optional<Quantity> highest = Optional.empty();
        for (String name : List.of(SignalNames.HOMING_SPEED_SWITCH, SignalNames.HOMING_SPEED_ZERO)) {
            SignalSpec signal = readable.get(name);
            if (signal == null) {
                continue;
            }
            Quantity speed = new Quantity(Math.abs(registers.read(signal)), signal.unit());
            if (highest.isEmpty() || speed.value() > highest.get().in(signal.unit())) {
                highest = Optional.of(speed);
            }
        }
        return highest;
    }

    @Override
    public void stop() throws DriveException {
        commands.stop();
    }

    @Override
    public Map<String, String> identification() throws DriveException {
        return registers.identification();
    }

    @Override
    public void reconnect() throws DriveException {
        registers.reconnect();
    }

    @Override
    public String peer() {
        return registers.link().peer();
    }

    private long raw(DriveRegisters.Look look, String name) {
        SignalSpec signal = registers.description().signal(name);
        return RegisterCodec.decodeRaw(signal, registers.words(look, signal));
    }

    private static void refuseIncomplete(DriveDescription description) {
        List<String> missing = new ArrayList<>();
        SignalNames.required(description.style()).stream()
                .filter(name -> !description.has(name))
                .forEach(name -> missing.add("signal " + name));
        if (description.style() == CommandStyle.DIRECT) {
            DirectCommands.missing(description, missing);
        }
        if (!missing.isEmpty()) {
            throw new IllegalArgumentException(
                    "drive type " + description.type() + " declares no " + String.join(", no ", missing));
        }
    }

    private static Map<String, SignalSpec> readable(DriveDescription description) {
        Map<String, SignalSpec> readable = new LinkedHashMap<>(description.signals());
        description.parameters().forEach(parameter -> readable.putIfAbsent(parameter.name(), parameter));
        description
                .identity()
                .forEach(constant -> readable.putIfAbsent(constant.signal().name(), constant.signal()));
        return readable;
    }

    private DriveUnits units(DriveDescription description) {
        Map<String, Unit> unit = new HashMap<>();
        Map<String, Double> quanta = new HashMap<>();
        for (SignalSpec signal : sampled) {
            unit.put(signal.name(), signal.unit());
            quanta.put(signal.name(), Math.abs(signal.scale()));
        }
        return new DriveUnits(
                16 * description.signal(SignalNames.POSITION).registers(),
                unit,
                quanta,
                description.signal(commands.speedSignal()).unit(),
                description.signal(SignalNames.PROFILE_SPEED).unit(),
                description.signal(SignalNames.PROFILE_ACCELERATION).unit(),
                description.has(SignalNames.TORQUE_LIMIT),
                description.has(SignalNames.INTERNAL_POSITION)
                        ? OptionalInt.of(16
                                * description
                                        .signal(SignalNames.INTERNAL_POSITION)
                                        .registers())
                        : OptionalInt.empty());
    }
}
