package org.axtrial.sim;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleSupplier;
import java.util.function.Function;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.DriveDescription.SaveCommand;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/**
 * The registers of a simulated drive: what each shows, what a write to it does, and what is kept over a loss of supply. It
 * follows from the drive description alone. Its drive holds the lock.
 */
final class DriveImage {

    private final DriveDescription description;
    private final ShaftScale scale;
    private final LinkWatch linkWatch;
    private final Supplier<Firmware> firmware;
    private final LongSupplier nanos;
    private final Servo servo;
    private final DigitalInputs inputs;
    private final PositionRegister position;
    private final RegisterImage image = new RegisterImage();
    private final RegisterServer server;
    private final SavedSettings saved;
    private final Map<Integer, Integer> writes = new HashMap<>();
    private final Set<SignalSpec> identity = new HashSet<>();
    private final PeakMemory peaks = new PeakMemory();
    private final boolean latches;
    private int saves;

    /**
     * Registers as of a drive that was never told anything.
     *
     * @param linkWatch told of every write
     * @param firmware the one at work, which each start of the drive makes anew
     * @param nanos simulated time in ns
     */
    DriveImage(
            DriveDescription description,
            ShaftScale scale,
            LinkWatch linkWatch,
            Supplier<Firmware> firmware,
            LongSupplier nanos) {
        this.description = description;
        this.scale = scale;
        this.linkWatch = linkWatch;
        this.firmware = firmware;
        this.nanos = nanos;
        DriveParts parts = firmware.get().parts;
        this.servo = parts.servo();
        this.inputs = parts.inputs();
        this.position = parts.position();
        this.latches = !description.latchedPeaks().isEmpty();
        fill();
        this.saved = new SavedSettings(image);
        this.server = new RegisterServer(image, description.maxReadRegisters(), this::written);
    }

    /**
     * Writes the values that a drive shall start with and keeps them over a loss of supply.
     *
     * @param startValues scaled values of parameters, settings and plain signals, by name
     * @return every overlap of registers and every value that does not fit, none if all is well
     */
    List<String> startWith(Map<String, Double> startValues) {
        List<String> problems = new ArrayList<>(image.problems());
        applyStartValues(startValues, problems);
        writes.clear();
        saved.save(image);
        return problems;
    }

    private void fill() {
        // The time-out of the watchdog shows what the drive watches by, whatever else the description says of it.
        linkWatch.cell().ifPresent(image::add);
        // Identity first: where a signal or parameter reads the same register, the constant is what it shows.
        for (DriveDescription.IdentityConstant constant : description.identity()) {
            image.add(new RegisterCell.Held(constant.signal(), constant.expected(), false));
            identity.add(constant.signal());
        }
        for (SignalSpec signal : description.signals().values()) {
            image.add(cell(signal));
        }
        for (SignalSpec parameter : description.parameters()) {
            image.add(held(parameter, false));
        }
    }

    private RegisterCell cell(SignalSpec signal) {
        return switch (signal.name()) {
            case SignalNames.POSITION -> wrapping(signal, () -> position.unwrapped(servo.counts()));
            case SignalNames.INTERNAL_POSITION -> wrapping(signal, servo::counts);
            case SignalNames.DEMAND_POSITION -> wrapping(signal, () -> position.unwrapped(Math.rint(demandPosition())));
            case SignalNames.FOLLOWING_ERROR -> saturating(signal, this::followingError);
            case SignalNames.PEAK_FOLLOWING_ERROR -> saturating(signal, peaks::followingError);
            case SignalNames.SPEED -> {
                double unit = scale.factor(signal) * servo.radiansPerCount();
                yield saturating(signal, () -> servo.speed() / unit);
            }
            case SignalNames.TORQUE -> {
                double unit = scale.factor(signal);
                yield saturating(signal, () -> servo.torque() / unit);
            }
            case SignalNames.PEAK_TORQUE -> {
                double unit = scale.factor(signal);
                yield saturating(signal, () -> peaks.torque() / unit);
            }
            case SignalNames.STATUS -> wrapping(signal, () -> firmware.get().statusWord());
            case SignalNames.FAULT_CODE -> wrapping(signal, () -> firmware.get().faultCode());
            case SignalNames.LIFE_COUNTER -> wrapping(signal, () -> Math.floor(nanos.getAsLong() / 1e6));
            case SignalNames.MODE_DISPLAY ->
                wrapping(signal, () -> firmware.get().modeDisplay());
            case SignalNames.SUPPORTED_MODES ->
                wrapping(signal, () -> firmware.get().supportedModes());
            case SignalNames.DIGITAL_INPUTS -> wrapping(signal, () -> inputs.word());
            default -> held(signal, true);
        };
    }

    /** A cell for what is written: a setting starts as the drive does, anything else at 0. */
    private RegisterCell held(SignalSpec signal, boolean commanded) {
        if (isSaveCommand(signal)) {
            return new RegisterCell.Held(signal, idle(description.saveCommand().orElseThrow()), true);
        }
        for (Settings group : firmware.get().parts.groups()) {
            if (group.has(signal.name()) && scale.declares(signal.name())) {
                return new RegisterCell.Held(signal, RegisterCell.nearest(signal, group.start(signal.name())), true);
            }
        }
        return new RegisterCell.Held(signal, RegisterCell.nearest(signal, 0), commanded);
    }

    private static RegisterCell wrapping(SignalSpec signal, DoubleSupplier value) {
        return new RegisterCell.Live(signal, value, RegisterCell.Beyond.WRAPS);
    }

    private static RegisterCell saturating(SignalSpec signal, DoubleSupplier value) {
        return new RegisterCell.Live(signal, value, RegisterCell.Beyond.SATURATES);
    }

    private double demandPosition() {
        return servo.energised() ? servo.profile().position() : servo.counts();
    }

    private double followingError() {
        return Math.rint(demandPosition()) - servo.counts();
    }

    /** Catches the peaks of a step. */
    void latch() {
        if (latches) {
            peaks.see(followingError(), servo.torque());
        }
    }

    private void forgetPeaks() {
        peaks.clear(followingError(), servo.torque());
    }

    private void applyStartValues(Map<String, Double> startValues, List<String> problems) {
        startValues.forEach((signal, value) -> {
            RegisterCell cell = image.find(signal).orElse(null);
            if (!(cell instanceof RegisterCell.Held held)) {
                problems.add(signal + ": no declared value of that name can be given a start value");
                return;
            }
            try {
                if (!written(held, RegisterCodec.encode(held.spec(), value))) {
                    problems.add(signal + ": the drive refuses " + value);
                }
            } catch (IllegalArgumentException e) {
                problems.add(e.getMessage());
            }
        });
    }

    /** Acts on a written value and keeps it; false if the drive refuses. */
    private boolean written(RegisterCell cell, int[] words) {
        if (!(cell instanceof RegisterCell.Held held)) {
            return false;
        }
        double value = RegisterCodec.decode(held.spec(), words);
        if (isSaveCommand(held.spec())) {
            return save(held, words);
        }
        boolean clears = clearsPeaks(held.spec());
        if (clears
                && RegisterCodec.decodeRaw(held.spec(), words)
                        != description.clearPeaks().orElseThrow().value()) {
            return false;
        }
        if (!Double.isFinite(value)
                || (held.commanded() && !firmware.get().written(held.spec().name(), value))) {
            return false;
        }
        linkWatch.written(held, words, nanos.getAsLong());
        held.hold(words);
        writes.merge(held.first(), 1, Integer::sum);
        linkWatch.told(held, value);
        if (clears) {
            forgetPeaks();
        }
        return true;
    }

    private boolean clearsPeaks(SignalSpec signal) {
        return description
                .clearPeaks()
                .filter(clear -> clear.signal().equals(signal))
                .isPresent();
    }

    private boolean isSaveCommand(SignalSpec signal) {
        return description
                .saveCommand()
                .filter(command -> command.signal().equals(signal))
                .isPresent();
    }

    /** Keeps the settings over a loss of supply, if the right word asks for it. */
    private boolean save(RegisterCell.Held held, int[] words) {
        SaveCommand command = description.saveCommand().orElseThrow();
        if (RegisterCodec.decodeRaw(held.spec(), words) != command.value()) {
            return false;
        }
        saved.save(image);
        saves++;
        held.hold(RegisterCodec.encodeRaw(held.spec(), idle(command)));
        writes.merge(held.first(), 1, Integer::sum);
        return true;
    }

    /** What the register of the save command reads while nothing is being saved. */
    private static long idle(SaveCommand command) {
        return command.done().orElse(0);
    }

    /** The supply is back: settings as saved, told to the new firmware; no peak has outlived it. */
    void restore() {
        forgetPeaks();
        saved.restore(image).forEach(held -> {
            double value = RegisterCodec.decode(held.spec(), held.words());
            if (firmware.get().isSetting(held.spec().name())) {
                firmware.get().written(held.spec().name(), value);
            }
            linkWatch.told(held, value);
        });
    }

    /** Acts on a request; a read sees the registers in its own way. */
    byte[] answer(byte[] requestPdu, Function<RegisterCell, int[]> sight) {
        return server.answer(requestPdu, sight);
    }

    /** Answers a read as another drive of the same type would, whose identity constants differ. */
    byte[] answerAsAnother(byte[] requestPdu) {
        return server.answer(requestPdu, cell -> {
            int[] words = cell.words().clone();
            if (identity.contains(cell.spec())) {
                words[words.length - 1] ^= 0x0001;
            }
            return words;
        });
    }

    /** What every register shows now. */
    RegisterImage.Snapshot snapshot() {
        return image.snapshot();
    }

    /** What one declared value reads now, scaled; empty if none of that name is declared. */
    OptionalDouble value(String signal) {
        return image.find(signal).stream()
                .mapToDouble(cell -> RegisterCodec.decode(cell.spec(), cell.words()))
                .findFirst();
    }

    /** How often it was told to keep its settings over a loss of supply. */
    int saves() {
        return saves;
    }

    /** Writes accepted, to whatever register. */
    int writes() {
        return writes.values().stream().mapToInt(Integer::intValue).sum();
    }

    /** Writes accepted by the value that stands at the holding register address. */
    int writes(int address) {
        return writes.getOrDefault(address, 0);
    }
}
