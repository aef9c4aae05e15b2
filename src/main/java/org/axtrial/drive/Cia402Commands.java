package org.axtrial.drive;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.axtrial.link.Reply;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/**
 * The style of IEC 61800-7-201 (CiA 402): states, controlword and the set-point hand-shake of profile position mode;
 * profile velocity mode for speeds, homing mode for the reference.
 *
 * <p>Three dangers shape the sequences.
 *
 * <ul>
 *   <li>A halted move is not gone: clearing the halt bit alone would resume it. The halt bit is therefore cleared only
 *       in the very controlword that also brings a new set-point to be taken at once (bits 4 and 5).
 *   <li>The relative bit 6 counts from the preceding target by default (positioning option code 60F2h, from memory),
 *       which after a halted move or a spell in another mode lies anywhere. A relative move is therefore sent as an
 *       absolute one, from the demand position, or from the actual position where no demand is declared.
 *   <li>Changing to profile velocity mode with an old target velocity would start the axis. The mode is therefore changed
 *       with the halt bit set, and the old target velocity is cleared before enabling.
 * </ul>
 */
final class Cia402Commands implements MotionCommands {

    // Controlword 6040h, table of the standard.
    private static final int DISABLE_VOLTAGE = 0x0000;
    private static final int QUICK_STOP = 0x0002;
    private static final int SHUTDOWN = 0x0006;
    private static final int SWITCH_ON = 0x0007;
    private static final int ENABLE_OPERATION = 0x000F;
    private static final int NEW_SET_POINT = 0x0010;
    private static final int START_HOMING = 0x0010;
    private static final int CHANGE_AT_ONCE = 0x0020;
    private static final int FAULT_RESET = 0x0080;
    private static final int HALT = 0x0100;
    private static final int UNKNOWN_CONTROL = -1;

    // Statusword 6041h.
    private static final int TARGET_REACHED = 0x0400;
    private static final int INTERNAL_LIMIT = 0x0800;
    private static final int SET_POINT_ACKNOWLEDGE = 0x1000;

    // Modes of operation 6060h.
    private static final int PROFILE_POSITION = 1;
    private static final int PROFILE_VELOCITY = 3;
    private static final int HOMING = 6;

    /** For answers that a drive gives from its firmware alone: mode shown, set-point acknowledged. */
    private static final Duration HAND_SHAKE = Duration.ofSeconds(1);

    private final DriveRegisters registers;
    private final DriveDescription description;
    private final TimeSource time;
    private final Status status;
    private final StopGuard guard = new StopGuard();
    private volatile int control = UNKNOWN_CONTROL;

    Cia402Commands(DriveRegisters registers, TimeSource time) {
        this.registers = registers;
        this.description = registers.description();
        this.time = time;
        this.status = new Status(
                registers, time, this::state, word -> "\"" + shown(word).text() + "\"");
    }

    @Override
    public DriveState state(long word, int faultCode) {
        // While halted, bit 10 says that the axis stands, not that it is where it was ordered to.
        boolean reached = (word & TARGET_REACHED) != 0 && !isHalted();
        return new DriveState(shown(word).phase(), reached, (int) word, faultCode, (word & INTERNAL_LIMIT) != 0);
    }

    @Override
    public String speedSignal() {
        return SignalNames.TARGET_SPEED;
    }

    @Override
    public void enable(Duration within) throws DriveException, InterruptedException {
        long ticket = guard.ticket();
        Deadline deadline = Deadline.in(time, within);
        long word = status.read();
        if (isFault(word)) {
            throw status.problem(word, "no fault before enabling");
        }
        Cia402State state = shown(word);
        if (state != Cia402State.OPERATION_ENABLED) {
            write(ticket, List.of(Profile.value(signal(SignalNames.TARGET_SPEED), 0)));
        }
        while (state != Cia402State.OPERATION_ENABLED) {
            if (deadline.isPassed()) {
                // A drive that keeps falling back would else keep the walk going for ever.
                throw status.problem(status.read(), "\"operation enabled\" within " + within.toMillis() + " ms");
            }
            switch (state) {
                case SWITCH_ON_DISABLED -> control(ticket, SHUTDOWN);
                case READY_TO_SWITCH_ON -> control(ticket, SWITCH_ON);
                case SWITCHED_ON -> control(ticket, ENABLE_OPERATION);
                // Going straight back to "operation enabled" (transition 16) could resume what was stopped.
                case QUICK_STOP_ACTIVE -> control(ticket, DISABLE_VOLTAGE);
                case NOT_READY_TO_SWITCH_ON, UNKNOWN, FAULT, FAULT_REACTION_ACTIVE, OPERATION_ENABLED -> {}
            }
            state = awaitNext(state, within, deadline);
        }
    }

    /** Waits until the drive has left a state on its way to "operation enabled". */
    private Cia402State awaitNext(Cia402State from, Duration within, Deadline deadline)
            throws DriveException, InterruptedException {
        String expected = switch (from) {
            case SWITCH_ON_DISABLED -> Cia402State.READY_TO_SWITCH_ON.text();
            case READY_TO_SWITCH_ON -> Cia402State.SWITCHED_ON.text();
            case SWITCHED_ON -> Cia402State.OPERATION_ENABLED.text();
            default -> Cia402State.SWITCH_ON_DISABLED.text();
        };
        long next = status.await(
                word -> shown(word) != from && shown(word) != Cia402State.UNKNOWN && !isFault(word),
                Cia402Commands::isFault,
                "\"" + expected + "\" on the way to \"operation enabled\" (" + within.toMillis() + " ms in all)",
                Duration.ofNanos(Math.max(0, deadline.leftNanos())));
        return shown(next);
    }

    @Override
    public void disable(Duration within) throws DriveException, InterruptedException {
        Cia402State state = shown(status.read());
        switch (state) {
            case OPERATION_ENABLED, SWITCHED_ON -> alone(SHUTDOWN);
            case QUICK_STOP_ACTIVE, UNKNOWN -> alone(DISABLE_VOLTAGE);
            case NOT_READY_TO_SWITCH_ON, SWITCH_ON_DISABLED, READY_TO_SWITCH_ON, FAULT, FAULT_REACTION_ACTIVE -> {
                // A drive that switched itself off may still hold the order to enable, and would heed it later.
                if (control != UNKNOWN_CONTROL && (control & ENABLE_OPERATION) == ENABLE_OPERATION) {
                    alone(DISABLE_VOLTAGE);
                }
            }
        }
        status.await(
                word -> switch (shown(word)) {
                    case NOT_READY_TO_SWITCH_ON, SWITCH_ON_DISABLED, READY_TO_SWITCH_ON, FAULT -> true;
                    case OPERATION_ENABLED, SWITCHED_ON, QUICK_STOP_ACTIVE, FAULT_REACTION_ACTIVE, UNKNOWN -> false;
                },
                word -> false,
                "\"ready to switch on\" or \"switch on disabled\"",
                within);
    }

    @Override
    public void resetFault(Duration within) throws DriveException, InterruptedException {
        if (!isFault(status.read())) {
            return;
        }
        Deadline deadline = Deadline.in(time, within);
        status.await(
                word -> shown(word) != Cia402State.FAULT_REACTION_ACTIVE,
                word -> false,
                "the end of the fault reaction",
                within);
        // The reset is a rising edge of bit 7, so the bit must have been clear before, and must be clear afterwards.
        alone(DISABLE_VOLTAGE);
        alone(FAULT_RESET);
        status.await(
                word -> !isFault(word) && shown(word) != Cia402State.UNKNOWN,
                word -> false,
                "no fault after the reset",
                Duration.ofNanos(Math.max(0, deadline.leftNanos())));
        alone(DISABLE_VOLTAGE);
    }

    @Override
    public Started startRelative(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        return startRelative(counts, limits, 1);
    }

    @Override
    public Started startRelativeTwice(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        return startRelative(counts, limits, 2);
    }

    private Started startRelative(long counts, MotionLimits limits, int startWords)
            throws DriveException, InterruptedException {
        List<DriveRegisters.Write> profile = Profile.writes(description, limits);
        SignalSpec target = signal(SignalNames.TARGET_POSITION);
        // Refuses a distance that no register could hold, before anything is asked of the drive.
        Profile.counts(target, counts);
        long ticket = guard.ticket();
        String base = description.has(SignalNames.DEMAND_POSITION) ? SignalNames.DEMAND_POSITION : SignalNames.POSITION;
        long from = Math.round(registers.read(signal(base)));
        profile.add(Profile.counts(target, sum(from, counts)));
        return startPosition(ticket, profile, startWords);
    }

    @Override
    public Started startAbsolute(long counts, MotionLimits limits) throws DriveException, InterruptedException {
        List<DriveRegisters.Write> profile = Profile.writes(description, limits);
        profile.add(Profile.counts(signal(SignalNames.TARGET_POSITION), counts));
        return startPosition(guard.ticket(), profile, 1);
    }

    @Override
    public Started startSpeed(double speed, MotionLimits limits) throws DriveException, InterruptedException {
        List<DriveRegisters.Write> profile = Profile.writes(description, limits);
        DriveRegisters.Write target = Profile.value(signal(SignalNames.TARGET_SPEED), speed);
        long ticket = guard.ticket();
        requireEnabled();
        if (control == ENABLE_OPERATION && mode() == PROFILE_VELOCITY) {
            // Under way at another speed, or at standstill without halt: the target velocity itself is what starts.
            write(ticket, profile);
            return started(write(ticket, List.of(target)));
        }
        if (!isHalted()) {
            control(ticket, ENABLE_OPERATION | HALT);
        }
        enterMode(ticket, PROFILE_VELOCITY);
        profile.add(target);
        write(ticket, profile);
        return started(control(ticket, ENABLE_OPERATION));
    }

    @Override
    public Started startHoming() throws DriveException, InterruptedException {
        if (description.value(SignalNames.HOMING_METHOD).isEmpty()) {
            throw new IllegalArgumentException("drive type " + description.type() + " declares no "
                    + SignalNames.HOMING_METHOD + " (object 6098h), so homing is not ordered and nothing was sent");
        }
        long ticket = guard.ticket();
        requireEnabled();
        enterMode(ticket, HOMING);
        if (control != ENABLE_OPERATION && !isOnlyHalted()) {
            // Bit 4 must rise to be seen.
            control(ticket, ENABLE_OPERATION | HALT);
        }
        return started(control(ticket, ENABLE_OPERATION | START_HOMING));
    }

    private boolean isOnlyHalted() {
        return control == (ENABLE_OPERATION | HALT);
    }

    @Override
    public Homing homing(DriveState state) {
        return Homing.of(state.statusWord());
    }

    @Override
    public void stop() throws DriveException {
        guard.stop(() -> {
            int last = control;
            if (last != UNKNOWN_CONTROL && (last & ENABLE_OPERATION) == ENABLE_OPERATION) {
                return write(ENABLE_OPERATION | HALT);
            }
            // To a drive that is not enabled the same word would be an order to enable.
            return switch (shown(status.read())) {
                case OPERATION_ENABLED -> write(ENABLE_OPERATION | HALT);
                case UNKNOWN -> write(QUICK_STOP);
                default -> new Reply(new int[0], time.nanos(), time.nanos());
            };
        });
    }

    private Started startPosition(long ticket, List<DriveRegisters.Write> profileAndTarget, int startWords)
            throws DriveException, InterruptedException {
        requireEnabled();
        enterMode(ticket, PROFILE_POSITION);
        if (control != UNKNOWN_CONTROL && (control & NEW_SET_POINT) != 0) {
            // A hand-shake broke off before; bit 4 must rise again to be seen.
            control(ticket, ENABLE_OPERATION | HALT);
        }
        status.await(
                word -> (word & SET_POINT_ACKNOWLEDGE) == 0,
                Cia402Commands::isFault,
                "statusword bit 12 (set-point acknowledge) clear before a new set-point",
                HAND_SHAKE);
        write(ticket, profileAndTarget);
        Reply start = control(ticket, ENABLE_OPERATION | NEW_SET_POINT | CHANGE_AT_ONCE);
        try {
            for (int sent = 1; sent < startWords; sent++) {
                control(ticket, ENABLE_OPERATION | NEW_SET_POINT | CHANGE_AT_ONCE);
            }
            finishHandShake(ticket);
        } catch (DriveUnreachableException | CommandRefusedException e) {
            throw new OutcomeUnknownException(
                    "the set-point was sent and the motion may have begun, then: " + e.getMessage(), e);
        }
        return started(start);
    }

    private void finishHandShake(long ticket) throws DriveException, InterruptedException {
        status.await(
                word -> (word & SET_POINT_ACKNOWLEDGE) != 0 || guard.isVoid(ticket),
                word -> shown(word) != Cia402State.OPERATION_ENABLED,
                "statusword bit 12 (set-point acknowledge) set after the new set-point",
                HAND_SHAKE);
        control(ticket, ENABLE_OPERATION);
        status.await(
                word -> (word & SET_POINT_ACKNOWLEDGE) == 0 || guard.isVoid(ticket),
                word -> shown(word) != Cia402State.OPERATION_ENABLED,
                "statusword bit 12 (set-point acknowledge) clear after bit 4 was cleared",
                HAND_SHAKE);
    }

    private static long sum(long from, long counts) {
        try {
            return Math.addExact(from, counts);
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException(
                    "a move by " + counts + " counts from " + from + " leads past the end of the position register", e);
        }
    }

    private void requireEnabled() throws DriveException {
        long word = status.read();
        if (shown(word) != Cia402State.OPERATION_ENABLED) {
            throw status.problem(word, "\"operation enabled\" before a motion");
        }
    }

    private void enterMode(long ticket, int wanted) throws DriveException, InterruptedException {
        if (mode() == wanted) {
            return;
        }
        if (!isHalted()) {
            control(ticket, ENABLE_OPERATION | HALT);
        }
        write(ticket, List.of(Profile.counts(signal(SignalNames.MODE), wanted)));
        Deadline deadline = Deadline.in(time, HAND_SHAKE);
        for (long shown = mode(); shown != wanted; shown = mode()) {
            if (deadline.isPassed()) {
                throw status.problem(
                        status.read(),
                        "mode of operation " + wanted + " within " + HAND_SHAKE.toMillis() + " ms but mode " + shown
                                + " is displayed");
            }
            time.sleepUntil(time.nanos() + Status.POLL_NANOS);
        }
    }

    private long mode() throws DriveException {
        return registers.readRaw(signal(SignalNames.MODE_DISPLAY));
    }

    private Reply control(long ticket, int word) throws DriveException {
        return orStopped(guard.unlessStopped(ticket, () -> write(word)));
    }

    private Reply write(long ticket, List<DriveRegisters.Write> writes) throws DriveException {
        return orStopped(guard.unlessStopped(ticket, () -> registers.write(writes)));
    }

    /** A word that no stop needs to hold back, because it moves nothing; still never in the middle of a stop. */
    private void alone(int word) throws DriveException {
        guard.alone(() -> write(word));
    }

    private Reply orStopped(Optional<Reply> reply) throws DriveException {
        if (reply.isEmpty()) {
            throw status.problem(status.read(), "no stop while a command was being given");
        }
        return reply.get();
    }

    private Reply write(int word) throws DriveException {
        // Until the reply is there, nobody knows which word the drive holds.
        control = UNKNOWN_CONTROL;
        Reply reply = registers.write(List.of(Profile.counts(signal(SignalNames.CONTROL), word)));
        control = word;
        return reply;
    }

    private boolean isHalted() {
        return control != UNKNOWN_CONTROL && (control & HALT) != 0;
    }

    private SignalSpec signal(String name) {
        return description.signal(name);
    }

    private static Started started(Reply reply) {
        return new Started(reply.sentNanos(), reply.repliedNanos());
    }

    private static Cia402State shown(long word) {
        return Cia402State.of((int) word);
    }

    private static boolean isFault(long word) {
        return shown(word).phase() == DriveState.Phase.FAULT;
    }
}
