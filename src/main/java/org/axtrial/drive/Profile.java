package org.axtrial.drive;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** Turns what a motion is told into register words, before anything is sent, so that no half profile goes out. */
final class Profile {

    private Profile() {}

    /**
     * The writes of the limits.
     *
     * @throws IllegalArgumentException if one does not fit its register, would be rounded to nothing, or cannot be set
     */
    static List<DriveRegisters.Write> writes(DriveDescription description, MotionLimits limits) {
        List<DriveRegisters.Write> writes = new ArrayList<>();
        writes.add(positive(description.signal(SignalNames.PROFILE_SPEED), limits.speed()));
        writes.add(positive(description.signal(SignalNames.PROFILE_ACCELERATION), limits.acceleration()));
        if (description.has(SignalNames.PROFILE_DECELERATION)) {
            writes.add(positive(description.signal(SignalNames.PROFILE_DECELERATION), limits.acceleration()));
        }
        if (limits.torque().isPresent()) {
            SignalSpec torqueLimit = description.signal(SignalNames.TORQUE_LIMIT);
            writes.add(
                    positive(torqueLimit, Unit.PERCENT.convert(limits.torque().getAsDouble(), torqueLimit.unit())));
        }
        return writes;
    }

    /** A position or distance in counts, with all digits where the register is an integer without scale. */
    static DriveRegisters.Write counts(SignalSpec signal, long counts) {
        boolean plain = !signal.type().isFloat() && signal.scale() == 1 && signal.offset() == 0;
        return new DriveRegisters.Write(
                signal,
                plain ? RegisterCodec.encodeRaw(signal, counts) : RegisterCodec.encode(signal, (double) counts));
    }

    static DriveRegisters.Write value(SignalSpec signal, double value) {
        return new DriveRegisters.Write(signal, RegisterCodec.encode(signal, value));
    }

    private static DriveRegisters.Write positive(SignalSpec signal, double value) {
        DriveRegisters.Write write = value(signal, value);
        // Drives take a zero here in different ways, from "never" to "as fast as you can".
        if (!(RegisterCodec.decode(signal, write.words()) > 0)) {
            throw new IllegalArgumentException(signal.name() + ": " + value + " "
                    + signal.unit().symbol() + " is less than half a step of the register (step "
                    + Math.abs(signal.scale()) + ")");
        }
        return write;
    }
}
