package org.axtrial.drive;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.link.Reply;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.TimeSource;

/**
 * The direct style: a command register with values of the description, and registers whose writing starts motion. A
 * starting register is written alone and once: in one block with the profile, the drive could start before it has read
 * the rest.
 */
final class DirectCommands implements MotionCommands {

    private static final String ENABLED = "enabled";
    private static final String FAULT = "fault";
    private static final String MOVING = "moving";
    private static final String IN_POSITION = "inPosition";

    private static final List<String> BITS = List.of(ENABLED, FAULT, MOVING, IN_POSITION);
    private static final List<String> COMMANDS = List.of("enable", "disable", "stop", "resetFault");

    private final DriveRegisters registers;
    private final DriveDescription description;
    private final Status status;
    private final StopGuard guard = new StopGuard();

    DirectCommands(DriveRegisters registers, TimeSource time) {
        this.registers = registers;
        this.description = registers.description();
        this.status = new Status(registers, time, this::state, this::inWords);
    }

    /** Adds what the style needs and the description lacks. */
    static void missing(DriveDescription description, List<String> missing) {
        BITS.stream()
                .filter(bit -> !description.statusBits().containsKey(bit))
                .forEach(bit -> missing.add("status bit " + bit));
        COMMANDS.stream()
                .filter(command -> !description.commands().containsKey(command))
                .forEach(command -> missing.add("command " + command));
    }

    @Override
    public DriveState state(long word, int faultCode) {
        DriveState.Phase phase = is(FAULT, word)
                ? DriveState.Phase.FAULT
                : is(ENABLED, word) ? DriveState.Phase.ENABLED : DriveState.Phase.DISABLED;
        return new DriveState(phase, is(IN_POSITION, word) && !is(MOVING, word), (int) word, faultCode);
    }

    @Override
    public String speedSignal() {
        return SignalNames.SPEED_COMMAND;
    }

    @Override
    public void enable(Duration within) throws DriveException, InterruptedException {
        long ticket = guard.ticket();
        long word = status.read();
        if (is(FAULT, word)) {
            throw status.problem(word, "no fault before enabling");
        }
        if (!is(ENABLED, word)) {
            unlessStopped(ticket, List.of(command("enable")));
            status.await(shown -> is(ENABLED, shown) && !is(FAULT, shown), shown -> is(FAULT, shown), ENABLED, within);
        }
    }

    @Override
    public void disable(Duration within) throws DriveException, InterruptedException {
        if (is(ENABLED, status.read())) {
            guard.alone(() -> registers.write(List.of(command("disable"))));
            status.await(shown -> !is(ENABLED, shown), shown -> false, "not enabled", within);
        }
    }

    @Override
    public void resetFault(Duration within) throws DriveException, InterruptedException {
        if (is(FAULT, status.read())) {
            guard.alone(() -> registers.write(List.of(command("resetFault"))));
            status.await(shown -> !is(FAULT, shown), shown -> false, "no fault after the reset", within);
        }
    }

    @Override
    public Started startRelative(long counts, MotionLimits limits) throws DriveException {
        return startMove(Profile.counts(signal(SignalNames.RELATIVE_MOVE), counts), limits);
    }

    @Override
    public Started startRelativeTwice(long counts, MotionLimits limits) {
        throw new IllegalArgumentException(
                "drive type " + registers.description().type()
                        + " is commanded directly: each write of a move is a move of its own, so none is sent twice; nothing was"
                        + " sent");
    }

    @Override
    public Started startAbsolute(long counts, MotionLimits limits) throws DriveException {
        return startMove(Profile.counts(signal(SignalNames.ABSOLUTE_MOVE), counts), limits);
    }

    @Override
    public Started startSpeed(double speed, MotionLimits limits) throws DriveException {
        return start(Profile.value(signal(SignalNames.SPEED_COMMAND), speed), limits, false);
    }

    @Override
    public Started startHoming() {
        throw new IllegalArgumentException(
                "drive type " + description.type()
                        + " is commanded directly, and this style declares no homing; nothing was sent. Home it by its own panel");
    }

    @Override
    public Homing homing(DriveState state) {
        return Homing.NOT_STARTED_OR_INTERRUPTED;
    }

    @Override
    public void stop() throws DriveException {
        guard.stop(() -> registers.write(List.of(command("stop"))));
    }

    private Started startMove(DriveRegisters.Write start, MotionLimits limits) throws DriveException {
        return start(start, limits, true);
    }

    private Started start(DriveRegisters.Write start, MotionLimits limits, boolean fromStandstill)
            throws DriveException {
        List<DriveRegisters.Write> profile = Profile.writes(description, limits);
        long ticket = guard.ticket();
        long word = status.read();
        if (!is(ENABLED, word) || is(FAULT, word)) {
            throw status.problem(word, "enabled before a motion");
        }
        if (fromStandstill && is(MOVING, word)) {
            // Where such a move would end is for the drive to decide, so nobody could tell its travel beforehand.
            throw status.problem(word, "standstill before a move");
        }
        unlessStopped(ticket, profile);
        Reply reply = unlessStopped(ticket, List.of(start));
        return new Started(reply.sentNanos(), reply.repliedNanos());
    }

    private Reply unlessStopped(long ticket, List<DriveRegisters.Write> writes) throws DriveException {
        Optional<Reply> reply = guard.unlessStopped(ticket, () -> registers.write(writes));
        if (reply.isEmpty()) {
            throw status.problem(status.read(), "no stop while a command was being given");
        }
        return reply.get();
    }

    private DriveRegisters.Write command(String name) {
        Map<String, Integer> values = description.commands();
        Integer value = values.get(name);
        if (value == null) {
            throw new IllegalArgumentException("no command " + name);
        }
        return Profile.counts(signal(SignalNames.COMMAND), value);
    }

    private SignalSpec signal(String name) {
        return description.signal(name);
    }

    private boolean is(String meaning, long word) {
        Integer bit = description.statusBits().get(meaning);
        return bit != null && (word >> bit & 1) != 0;
    }

    private String inWords(long word) {
        List<String> set = new ArrayList<>();
        description.statusBits().forEach((meaning, bit) -> {
            if (is(meaning, word)) {
                set.add(meaning);
            }
        });
        set.sort(null);
        return set.isEmpty() ? "none of its status bits" : String.join(", ", set);
    }
}
