package org.axtrial.registers;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;

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
        Optional<Watchdog> watchdog) {

    public DriveDescription {
        signals = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(signals));
        statusBits = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(statusBits));
        commands = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(commands));
        identity = List.copyOf(identity);
        parameters = List.copyOf(parameters);
        if (maxReadRegisters < 1 || maxReadRegisters > 125) {
            throw new IllegalArgumentException("largest block read must be 1 … 125, got " + maxReadRegisters);
        }
        if (maxConnections < 1) {
            throw new IllegalArgumentException("connections must be at least 1, got " + maxConnections);
        }
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
    public record IdentityConstant(SignalSpec signal, double expected) {}

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
}
