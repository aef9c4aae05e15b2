package org.axtrial.drive;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** The peaks that a drive catches by itself between two looks. */
final class PeakLatches {

    private final DriveRegisters registers;
    private final List<SignalSpec> latches;

    PeakLatches(DriveRegisters registers) {
        this.registers = registers;
        this.latches = registers.description().latchedPeaks();
    }

    void clear() throws DriveException {
        Optional<DriveDescription.ClearPeaks> clear = registers.description().clearPeaks();
        if (!latches.isEmpty() && clear.isPresent()) {
            registers.write(
                    List.of(Profile.counts(clear.get().signal(), clear.get().value())));
        }
    }

    List<DrivePeak> read() throws DriveException {
        if (latches.isEmpty()) {
            return List.of();
        }
        DriveRegisters.Look look = registers.read(latches);
        List<DrivePeak> peaks = new ArrayList<>();
        for (SignalSpec latch : latches) {
            // Some drives keep the sign of the peak.
            double size = Math.abs(registers.value(latch, registers.words(look, latch)));
            peaks.add(new DrivePeak(of(latch), size, latch.unit(), Math.abs(latch.scale())));
        }
        return peaks;
    }

    private static DrivePeak.Of of(SignalSpec latch) {
        return latch.name().equals(SignalNames.PEAK_TORQUE) ? DrivePeak.Of.TORQUE : DrivePeak.Of.FOLLOWING_ERROR;
    }
}
