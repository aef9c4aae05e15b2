package org.axtrial.drive;

import java.util.List;
import java.util.Map;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** Writes one value once and looks at the register afterwards, which tells more than any reply. */
final class ParameterWrite {

    private final DriveRegisters registers;
    private final Map<String, SignalSpec> readable;

    ParameterWrite(DriveRegisters registers, Map<String, SignalSpec> readable) {
        this.registers = registers;
        this.readable = readable;
    }

    double nearest(String name, double value) {
        DriveRegisters.Write write = prepared(name, value);
        return RegisterCodec.decode(write.signal(), write.words());
    }

    private DriveRegisters.Write prepared(String name, double value) {
        SignalSpec signal = readable.get(name);
        if (signal == null || !signal.writable() || isCommand(name)) {
            String why = signal == null
                    ? "declares no"
                    : !signal.writable() ? "does not let the tool write" : "takes as part of a command";
            throw new IllegalArgumentException("drive type "
                    + registers.description().type() + " " + why + " \"" + name + "\"; it may write " + writable());
        }
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + ": a register takes a finite value, got " + value);
        }
        return new DriveRegisters.Write(signal, RegisterCodec.encode(signal, value));
    }

    double write(String name, double value) throws DriveException {
        DriveRegisters.Write write = prepared(name, value);
        SignalSpec signal = write.signal();
        double wanted = RegisterCodec.decode(signal, write.words());
        try {
            registers.write(List.of(write));
        } catch (OutcomeUnknownException e) {
            return lookFor(signal, wanted, e);
        }
        double shown = registers.read(signal);
        if (!same(signal, shown, wanted)) {
            String told = name + " at " + signal.place() + " was written as " + wanted + " and reads " + shown;
            throw new CommandRefusedException(
                    registers.link().peer() + ": " + told
                            + "; the drive limits it, is locked, or the description is wrong there",
                    new IllegalStateException(told));
        }
        return shown;
    }

    /** The reply was lost: whether the drive took the value stands in its register. */
    private double lookFor(SignalSpec signal, double wanted, OutcomeUnknownException lost)
            throws OutcomeUnknownException {
        double shown;
        try {
            registers.reconnect();
            shown = registers.read(signal);
        } catch (DriveException e) {
            lost.addSuppressed(e);
            throw lost;
        }
        if (same(signal, shown, wanted)) {
            return shown;
        }
        throw new OutcomeUnknownException(
                "writing " + signal.name() + ": sent once and not repeated; the reply was lost and the register reads "
                        + shown + " instead of " + wanted + ", but the write may still be under way: look again, "
                        + lost.getMessage(),
                lost);
    }

    private static boolean same(SignalSpec signal, double shown, double wanted) {
        return signal.type().isFloat() ? shown == wanted : Math.abs(shown - wanted) <= Math.abs(signal.scale()) / 2;
    }

    private boolean isCommand(String name) {
        return SignalNames.MOTION_COMMANDS.contains(name)
                || registers
                        .description()
                        .saveCommand()
                        .filter(save -> save.signal().name().equals(name))
                        .isPresent()
                || registers
                        .description()
                        .clearPeaks()
                        .filter(clear -> clear.signal().name().equals(name))
                        .isPresent();
    }

    private String writable() {
        List<String> names = readable.values().stream()
                .filter(signal -> signal.writable() && !isCommand(signal.name()))
                .map(SignalSpec::name)
                .toList();
        return names.isEmpty() ? "nothing" : String.join(", ", names);
    }
}
