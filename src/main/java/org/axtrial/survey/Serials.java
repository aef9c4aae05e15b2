package org.axtrial.survey;

import java.util.Optional;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** Reads serial numbers. */
final class Serials {

    private Serials() {}

    /** The serial number; empty if none is declared, the drive refuses it, or it says nothing. */
    static Optional<Long> read(RegisterLink link, DriveDescription drive) throws LinkException {
        Optional<SignalSpec> declared = drive.value(SignalNames.SERIAL_NUMBER)
                .filter(signal -> !signal.type().isFloat());
        if (declared.isEmpty()) {
            return Optional.empty();
        }
        SignalSpec signal = declared.get();
        try {
            int[] words = link.read(signal.table().readFunction(), signal.address(), signal.registers())
                    .words();
            return Reading.isBlank(words) ? Optional.empty() : Optional.of(RegisterCodec.decodeRaw(signal, words));
        } catch (DriveRefusedException e) {
            return Optional.empty();
        }
    }
}
