package org.axtrial.drive;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/**
 * Tells a drive to keep its parameters over a power cycle. The memory of a drive bears a limited number of writes and
 * keeps a wrong value for the next shift, so that this happens only by name and is never repeated.
 */
final class ParameterSave {

    private static final Duration BETWEEN_LOOKS = Duration.ofMillis(20);

    private final DriveRegisters registers;
    private final TimeSource time;

    ParameterSave(DriveRegisters registers, TimeSource time) {
        this.registers = registers;
        this.time = time;
    }

    void save(String name) throws DriveException, InterruptedException {
        DriveDescription.SaveCommand command = declared(name);
        registers.write(List.of(Profile.counts(command.signal(), command.value())));
        if (command.done().isEmpty()) {
            return;
        }
        Deadline deadline = Deadline.in(time, command.within());
        long shown = registers.readRaw(command.signal());
        while (shown != command.done().getAsLong()) {
            if (deadline.isPassed()) {
                String told = registers.link().peer() + ": " + name + " was written once and reads " + shown
                        + " instead of " + command.done().getAsLong() + " after "
                        + command.within().toMillis()
                        + " ms; whether the drive has kept its parameters is unknown, look at it there";
                throw new OutcomeUnknownException(told, new IllegalStateException(told));
            }
            time.sleepUntil(time.nanos() + BETWEEN_LOOKS.toNanos());
            shown = registers.readRaw(command.signal());
        }
    }

    private DriveDescription.SaveCommand declared(String name) {
        Optional<DriveDescription.SaveCommand> command = registers.description().saveCommand();
        String type = "drive type " + registers.description().type();
        if (command.isEmpty()) {
            throw new IllegalArgumentException(
                    type + " declares no saveCommand, so nothing is saved over a power cycle and nothing was sent");
        }
        if (!command.get().signal().name().equals(name)) {
            throw new IllegalArgumentException(type + " saves its parameters by \""
                    + command.get().signal().name() + "\", not by \"" + name + "\"; nothing was sent");
        }
        return command.get();
    }
}
