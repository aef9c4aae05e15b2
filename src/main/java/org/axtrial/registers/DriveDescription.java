package org.axtrial.registers;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * One drive type as its description file gives it.
 *
 * @param type name of the drive type
 * @param style how it is told to move
 * @param signals all signals by name, in file order; {@link SignalNames} lists the names each style needs
 * @param statusBits for the direct style: bit number in {@code status} by meaning ({@code ready}, {@code enabled},
 *     {@code fault}, {@code moving}, {@code inPosition}); empty for {@code cia402}, whose bits the standard fixes
 * @param commands for the direct style: the value written to the command register by meaning ({@code enable},
 *     {@code disable}, {@code stop}, {@code resetFault}); empty for {@code cia402}
 * @param identity constants that prove the right drive answers
 * @param parameters what the as-found / as-left record reads
 * @param maxReadRegisters largest block one read may ask for, 1 … 125
 * @param maxConnections TCP connections the drive accepts at once, at least 1
 * @param watchdog communication watchdog, empty if the drive has none
 * @param expectations what signals and parameters are expected to read, by name; those without one may read anything
 * @param deviceIdentification texts by object id that the drive answers to function 43, MEI type 14 (MODBUS Application
 *     Protocol V1.1b3, 6.21): ASCII, at most 244 characters each; empty if the drive does not know the function, else
 *     at least the objects 0, 1 and 2
 * @param saveCommand how the drive is told to keep its parameters over a power cycle; empty if the tool may not do that
 * @param clearPeaks how the drive is told to forget the peaks that it has latched; empty if it latches none
 */
public record DriveDescription(
        String type,
        CommandStyle style,
        Map<String, SignalSpec> signals,
        Map<String, Integer> statusBits,
        Map<String, Integer> commands,
        List<IdentityConstant> identity,
        List<SignalSpec> parameters,
        int maxReadRegisters,
        int maxConnections,
        Optional<Watchdog> watchdog,
        Map<String, Expectation> expectations,
        Map<Integer, String> deviceIdentification,
        Optional<SaveCommand> saveCommand,
        Optional<ClearPeaks> clearPeaks) {

    /** Names of the objects of a device identification, by object id. Source: MODBUS Application Protocol V1.1b3, 6.21. */
    public static final List<String> IDENTIFICATION_OBJECTS = List.of(
            "vendorName", "productCode", "revision", "vendorUrl", "productName", "modelName", "userApplicationName");

    /** The longest text that fits a reply: 253 bytes less 7 of the head and 2 of the object. */
    public static final int LONGEST_IDENTIFICATION = 244;

    public DriveDescription {
        deviceIdentification = java.util.Collections.unmodifiableMap(new java.util.TreeMap<>(deviceIdentification));
        if (!deviceIdentification.isEmpty() && !deviceIdentification.keySet().containsAll(List.of(0, 1, 2))) {
            throw new IllegalArgumentException(
                    "a device identification has the objects 0, 1 and 2, got " + deviceIdentification.keySet());
        }
        deviceIdentification.forEach((id, text) -> {
            if (id < 0 || id > 255 || !isIdentification(text)) {
                throw new IllegalArgumentException(
                        "object " + id + " of the device identification is no ASCII text of 1 … "
                                + LONGEST_IDENTIFICATION + " characters: \"" + text + "\"");
            }
        });
        signals = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(signals));
        statusBits = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(statusBits));
        commands = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(commands));
        identity = List.copyOf(identity);
        parameters = List.copyOf(parameters);
        expectations = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(expectations));
        if (maxReadRegisters < 1 || maxReadRegisters > 125) {
            throw new IllegalArgumentException("largest block read must be 1 … 125, got " + maxReadRegisters);
        }
        if (maxConnections < 1) {
            throw new IllegalArgumentException("connections must be at least 1, got " + maxConnections);
        }
    }

    /** A drive type whose signals and parameters may read anything, and that does not know function 43. */
    public DriveDescription(
            String type,
            CommandStyle style,
            Map<String, SignalSpec> signals,
            Map<String, Integer> statusBits,
            Map<String, Integer> commands,
            List<IdentityConstant> identity,
            List<SignalSpec> parameters,
            int maxReadRegisters,
            int maxConnections,
            Optional<Watchdog> watchdog) {
        this(
                type,
                style,
                signals,
                statusBits,
                commands,
                identity,
                parameters,
                maxReadRegisters,
                maxConnections,
                watchdog,
                Map.of(),
                Map.of(),
                Optional.empty(),
                Optional.empty());
    }

    /** A signal or parameter by name, wherever it is declared; identity constants are not among them. */
    public Optional<SignalSpec> value(String name) {
        return Optional.ofNullable(signals.get(name))
                .or(() -> parameters.stream()
                        .filter(parameter -> parameter.name().equals(name))
                        .findFirst());
    }

    /** The same drive type, answering function 43 with these texts. */
    public DriveDescription withDeviceIdentification(Map<Integer, String> objects) {
        return new DriveDescription(
                type,
                style,
                signals,
                statusBits,
                commands,
                identity,
                parameters,
                maxReadRegisters,
                maxConnections,
                watchdog,
                expectations,
                objects,
                saveCommand,
                clearPeaks);
    }

    /** The same drive type, keeping its parameters on this command. */
    public DriveDescription withSaveCommand(SaveCommand command) {
        return new DriveDescription(
                type,
                style,
                signals,
                statusBits,
                commands,
                identity,
                parameters,
                maxReadRegisters,
                maxConnections,
                watchdog,
                expectations,
                deviceIdentification,
                Optional.of(command),
                clearPeaks);
    }

    /** The same drive type, forgetting its latched peaks on this write. */
    public DriveDescription withClearPeaks(ClearPeaks clear) {
        return new DriveDescription(
                type,
                style,
                signals,
                statusBits,
                commands,
                identity,
                parameters,
                maxReadRegisters,
                maxConnections,
                watchdog,
                expectations,
                deviceIdentification,
                saveCommand,
                Optional.of(clear));
    }

    /**
     * The peaks that the drive latches and can be told to forget. One that cannot be cleared may be older than a motion, and
     * is none of them.
     */
    public List<SignalSpec> latchedPeaks() {
        return clearPeaks.isEmpty()
                ? List.of()
                : SignalNames.LATCHED.stream()
                        .filter(this::has)
                        .map(this::signal)
                        .toList();
    }

    /** Whether a text can be an object of a device identification. */
    public static boolean isIdentification(String text) {
        return !text.isEmpty()
                && text.length() <= LONGEST_IDENTIFICATION
                && text.chars().allMatch(letter -> letter >= ' ' && letter <= '~');
    }

    /**
     * A signal that must be there.
     *
     * @throws IllegalArgumentException if the description does not declare it
     */
    public SignalSpec signal(String name) {
        SignalSpec spec = signals.get(name);
        if (spec == null) {
            throw new IllegalArgumentException("drive type " + type + " declares no signal \"" + name + "\"; it has "
                    + String.join(", ", signals.keySet()));
        }
        return spec;
    }

    public boolean has(String name) {
        return signals.containsKey(name);
    }

    /**
     * A constant that the right drive must show.
     *
     * @param signal where it is read
     * @param expected the scaled value
     */
    public record IdentityConstant(SignalSpec signal, double expected) {

        /** Relative difference that a 32-bit float may show from a value written in decimals. */
        private static final double FLOAT_ERROR = 1e-6;

        /** Whether these words show the expected value: the same raw step, for floats the same number but for rounding. */
        public boolean isShownBy(int[] words) {
            double value = RegisterCodec.decode(signal, words);
            double allowed = signal.type().isFloat() ? FLOAT_ERROR * Math.abs(expected) : Math.abs(signal.scale()) / 2;
            return Double.isFinite(value) && Math.abs(value - expected) <= allowed;
        }
    }

    /**
     * The drive's own supervision of the link.
     *
     * @param timeout the drive reacts when nothing has been received for so long
     * @param signal where the time-out can be read, empty if it cannot
     * @param keepAlive what must be written meanwhile; empty if any request will do
     */
    public record Watchdog(Duration timeout, Optional<SignalSpec> signal, Optional<KeepAlive> keepAlive) {

        /** A watchdog that any request keeps quiet. */
        public Watchdog(Duration timeout, Optional<SignalSpec> signal) {
            this(timeout, signal, Optional.empty());
        }
    }

    /**
     * A register that must be written again and again, so that the drive sees that somebody is at work.
     *
     * @param signal where it is written
     * @param values the values to write in turn, at least one; two or more where the drive wants to see a change
     */
    public record KeepAlive(SignalSpec signal, List<Long> values) {

        public KeepAlive {
            values = List.copyOf(values);
            if (values.isEmpty()) {
                throw new IllegalArgumentException("a keep-alive needs at least one value to write");
            }
        }
    }

    /**
     * The write that lets the drive keep its parameters over a power cycle.
     *
     * @param signal where it is written; the name by which a script must ask for it
     * @param value the value that is written, once
     * @param done what the register reads once the drive has kept them; empty if it does not tell
     * @param within how long the drive may take to read {@code done}, positive
     */
    public record SaveCommand(SignalSpec signal, long value, OptionalLong done, Duration within) {

        public SaveCommand {
            if (within.isNegative() || within.isZero()) {
                throw new IllegalArgumentException("the time to save must be positive, got " + within);
            }
        }
    }

    /**
     * The write that lets the drive forget the peaks that it has latched, so that what it latches from then on is of the
     * next motion alone. It moves nothing.
     *
     * @param signal where it is written
     * @param value the value that is written, once
     */
    public record ClearPeaks(SignalSpec signal, long value) {}
}
