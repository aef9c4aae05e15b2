package org.axtrial.drive;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.DriveDescription.IdentityConstant;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/**
 * Makes sure, once for each connection, that the right drive is at its far end: the identity constants show what the
 * description expects, and the serial number, where one is declared, is the one that was read first.
 *
 * <p>A cable that was pulled may come back in another drive, and an address may be given to another device while a run
 * goes on. Not thread-safe; the caller holds its lock.
 */
final class IdentityProof {

    private static final long NEVER = -1;

    private final DriveRegisters registers;
    private final Map<String, SignalSpec> wanted = new LinkedHashMap<>();
    private final Optional<SignalSpec> serial;
    private Optional<Long> firstSerial = Optional.empty();
    private long provenOn = NEVER;

    IdentityProof(DriveRegisters registers) {
        this.registers = registers;
        DriveDescription description = registers.description();
        description.identity().forEach(constant -> wanted.put(constant.signal().name(), constant.signal()));
        serial = serial(description);
        serial.ifPresent(signal -> wanted.putIfAbsent(signal.name(), signal));
    }

    private static Optional<SignalSpec> serial(DriveDescription description) {
        SignalSpec signal = description.signals().get(SignalNames.SERIAL_NUMBER);
        return Optional.ofNullable(signal)
                .or(() -> description.parameters().stream()
                        .filter(parameter -> parameter.name().equals(SignalNames.SERIAL_NUMBER))
                        .findFirst())
                .filter(found -> !found.type().isFloat());
    }

    /** Nothing that was known of the drive holds any more. */
    void forget() {
        provenOn = NEVER;
    }

    /**
     * Reads the identity unless it has been proven on the present connection.
     *
     * @throws WrongDriveException if another drive answers
     * @throws DriveException if it cannot be read
     */
    void require() throws DriveException {
        long connection = registers.link().connectionNumber();
        if (wanted.isEmpty() || provenOn == connection) {
            return;
        }
        provenOn = NEVER;
        DriveRegisters.Look look = registers.read(wanted.values());
        List<String> wrong = new ArrayList<>();
        for (IdentityConstant constant : registers.description().identity()) {
            int[] words = registers.words(look, constant.signal());
            if (!constant.isShownBy(words)) {
                wrong.add(constant.signal().name() + " at " + constant.signal().place() + " reads " + hex(words)
                        + ", expected " + hex(RegisterCodec.encode(constant.signal(), constant.expected())));
            }
        }
        if (serial.isPresent()) {
            compareSerial(RegisterCodec.decodeRaw(serial.get(), registers.words(look, serial.get())), wrong);
        }
        if (!wrong.isEmpty()) {
            throw new WrongDriveException(
                    registers.link().peer() + ": another drive answers (" + String.join("; ", wrong)
                            + "). Nothing was written to it, not even a stop. Check address, unit id and cabling");
        }
        // A connection that was made anew while the identity was read would be unproven.
        provenOn = connection;
    }

    private void compareSerial(long read, List<String> wrong) {
        if (firstSerial.isEmpty()) {
            firstSerial = Optional.of(read);
        } else if (firstSerial.get() != read) {
            wrong.add("serial number " + read + ", before it was " + firstSerial.get());
        }
    }

    private static String hex(int[] words) {
        return Arrays.stream(words)
                .mapToObj(word -> String.format(Locale.ROOT, "%04X", word))
                .collect(Collectors.joining(" ", "", " hex"));
    }
}
