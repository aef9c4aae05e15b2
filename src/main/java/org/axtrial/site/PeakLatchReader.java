package org.axtrial.site;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BiFunction;
import org.axtrial.registers.DriveDescription.ClearPeaks;
import org.axtrial.registers.DriveDescription.SaveCommand;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** Reads how the peaks are cleared that a drive latches, and refuses those that could be older than a motion. */
final class PeakLatchReader {

    private static final String KEY = "clearPeaks";

    private final YamlMap top;
    private final YamlMap map;
    private final BiFunction<YamlMap, String, Optional<SignalSpec>> named;

    /** @param named finds the value that a key of a map names, and tells when there is none */
    PeakLatchReader(YamlMap top, BiFunction<YamlMap, String, Optional<SignalSpec>> named) {
        this.top = top;
        this.map = top.map(KEY);
        this.named = named;
    }

    Optional<ClearPeaks> read(Map<String, SignalSpec> signals, Optional<SaveCommand> save) {
        List<String> peaks =
                SignalNames.LATCHED.stream().filter(signals::containsKey).toList();
        if (!top.has(KEY)) {
            peaks.forEach(this::refuseWithoutClear);
            return Optional.empty();
        }
        if (peaks.isEmpty()) {
            top.keyProblem(
                    KEY,
                    "there is no latched peak to clear; declare the signal " + String.join(" or ", SignalNames.LATCHED)
                            + ", or leave this out");
        }
        if (peaks.contains(SignalNames.PEAK_FOLLOWING_ERROR) && !signals.containsKey(SignalNames.FOLLOWING_ERROR)) {
            top.map("signals")
                    .keyProblem(
                            SignalNames.PEAK_FOLLOWING_ERROR,
                            "a latched peak is held against the samples, so " + SignalNames.FOLLOWING_ERROR
                                    + " must be declared too");
        }
        Optional<SignalSpec> signal = named.apply(map, "signal");
        OptionalLong value = map.integer("value");
        if (signal.isEmpty() || value.isEmpty()) {
            return Optional.empty();
        }
        String name = signal.get().name();
        if (SignalNames.MOTION_COMMANDS.contains(name)
                || SignalNames.LATCHED.contains(name)
                || save.filter(command -> command.signal().name().equals(name)).isPresent()) {
            map.problem(
                    "signal", "expected a register that does nothing else, because it is written before every motion");
        }
        DriveReader.writtenAsWholeNumber(map, signal.get());
        DriveReader.mustCarry(map, "value", signal.get(), value.getAsLong());
        return Optional.of(new ClearPeaks(signal.get(), value.getAsLong()));
    }

    private void refuseWithoutClear(String peak) {
        top.map("signals")
                .keyProblem(
                        peak,
                        "a peak that cannot be cleared may be older than the motion and is no measured value; say under "
                                + KEY + " what clears it, or give the signal another name");
    }
}
