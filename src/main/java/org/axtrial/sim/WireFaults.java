package org.axtrial.sim;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** The armed faults of one wire, and what they make of a request. Safe for several threads. */
final class WireFaults {

    private static final int OTHER_FUNCTION = 0x2B;

    private final List<Armed> armed = new ArrayList<>();
    private final Map<Integer, Long> frames = new HashMap<>();
    private final Set<SimulatedDrive> others = new HashSet<>();

    private static final class Armed {
        private final WireFault fault;
        private int toPass;
        private int left;
        /** What the registers of a drive showed when they were frozen, or at the read before. */
        private final Map<SimulatedDrive, RegisterImage.Snapshot> seen = new HashMap<>();

        private final Optional<SimulatedDrive> only;

        Armed(WireFault fault, Optional<SimulatedDrive> only) {
            this.fault = fault;
            this.only = only;
            this.toPass = fault.strikes().after();
            this.left = fault.strikes().count();
        }

        boolean fits(int function, SimulatedDrive drive) {
            if (only.isPresent() && only.get() != drive) {
                return false;
            }
            int wanted = fault.strikes().function();
            boolean readsOnly = fault instanceof WireFault.FrozenValues || fault instanceof WireFault.TornWords;
            return (wanted == WireFault.ANY_FUNCTION || wanted == function) && (!readsOnly || isRead(function));
        }

        /** Uses up one strike; whether none is left. */
        boolean strike() {
            return left != WireFault.WITHOUT_END && --left == 0;
        }
    }

    synchronized void arm(WireFault fault) {
        armed.add(new Armed(fault, Optional.empty()));
    }

    /** Arms a fault for the requests to one of several drives. */
    synchronized void arm(WireFault fault, SimulatedDrive only) {
        armed.add(new Armed(fault, Optional.of(only)));
    }

    synchronized void clear() {
        armed.clear();
        others.clear();
    }

    /** Disarms what was armed for one drive alone. */
    synchronized void clear(SimulatedDrive drive) {
        disarm(drive, fault -> true);
        others.remove(drive);
    }

    /** Disarms those of the faults armed for one drive alone that are chosen. */
    synchronized void disarm(SimulatedDrive drive, Predicate<WireFault> chosen) {
        armed.removeIf(each -> each.only.filter(drive::equals).isPresent() && chosen.test(each.fault));
    }

    /** What may strike requests to a drive, or has struck and lasts. */
    synchronized List<WireFault> of(SimulatedDrive drive) {
        List<WireFault> found = new ArrayList<>();
        if (others.contains(drive)) {
            found.add(new WireFault.OtherDrive(WireFault.Strikes.FROM_NOW_ON));
        }
        armed.stream()
                .filter(each -> each.only.isEmpty() || each.only.get() == drive)
                .forEach(each -> found.add(each.fault));
        return found;
    }

    /** Sends a request through the faults to a drive that has been brought to the present. */
    synchronized WireOutcome pass(byte[] request, SimulatedDrive drive) {
        frames.merge(key(request[0] & 0xFF, request.length < 3 ? 0 : RegisterServer.word(request, 1)), 1L, Long::sum);
        if (!drive.reachable()) {
            return new WireOutcome.Nothing();
        }
        Duration slower = Duration.ZERO;
        Optional<Armed> struck = Optional.empty();
        for (Iterator<Armed> each = armed.iterator(); each.hasNext(); ) {
            Armed candidate = each.next();
            if (!candidate.fits(request[0] & 0xFF, drive)) {
                continue;
            }
            if (candidate.toPass > 0) {
                candidate.toPass--;
                continue;
            }
            boolean slow = candidate.fault instanceof WireFault.SlowDrive;
            if (slow || struck.isEmpty()) {
                slower = candidate.fault instanceof WireFault.SlowDrive by ? slower.plus(by.each()) : slower;
                struck = slow ? struck : Optional.of(candidate);
                if (candidate.strike()) {
                    each.remove();
                }
            }
        }
        return struck.isEmpty() ? sound(request, drive, slower) : strike(struck.get(), request, drive, slower);
    }

    /** Requests of a function code for a first address that have come in, whatever became of them. */
    synchronized long frames(int function, int address) {
        return frames.getOrDefault(key(function, address), 0L);
    }

    private static int key(int function, int address) {
        return function << 16 | address;
    }

    private WireOutcome strike(Armed struck, byte[] request, SimulatedDrive drive, Duration slower) {
        WireFault fault = struck.fault;
        if (fault instanceof WireFault.Silence) {
            return new WireOutcome.Nothing();
        }
        if (fault instanceof WireFault.HalfOpen) {
            return new WireOutcome.Forgotten();
        }
        if (fault instanceof WireFault.ConnectionsTaken taken) {
            return new WireOutcome.Taken(taken.attempts());
        }
        if (fault instanceof WireFault.ExceptionReply exception) {
            return reply(RegisterServer.exception(request[0], exception.code()), slower);
        }
        if (fault instanceof WireFault.OtherDrive) {
            others.add(drive);
            return new WireOutcome.Reset();
        }
        if (fault instanceof WireFault.FrozenValues) {
            return reply(
                    drive.answer(request, struck.seen.computeIfAbsent(drive, SimulatedDrive::snapshot)::frozen),
                    slower);
        }
        if (fault instanceof WireFault.TornWords) {
            RegisterImage.Snapshot now = drive.snapshot();
            RegisterImage.Snapshot before =
                    Optional.ofNullable(struck.seen.put(drive, now)).orElse(now);
            return reply(drive.answer(request, before::torn), slower);
        }
        return afterActing(fault, answer(request, drive), slower);
    }

    /** The faults that strike when the drive has acted already. */
    private static WireOutcome afterActing(WireFault fault, byte[] response, Duration slower) {
        if (fault instanceof WireFault.DropReply) {
            return new WireOutcome.Nothing();
        }
        if (fault instanceof WireFault.ResetConnection) {
            return new WireOutcome.Reset();
        }
        if (fault instanceof WireFault.DelayReply delay) {
            return reply(response, slower.plus(delay.by()));
        }
        if (fault instanceof WireFault.TrickleReply trickle) {
            return new WireOutcome.Trickle(response, trickle.each());
        }
        if (fault instanceof WireFault.WrongFunction) {
            byte[] other = response.clone();
            other[0] = OTHER_FUNCTION;
            return reply(other, slower);
        }
        if (fault instanceof WireFault.WrongLength) {
            return reply(shortened(response), slower);
        }
        return new WireOutcome.Reply(response, slower, spoil(fault));
    }

    private static WireOutcome.Spoil spoil(WireFault fault) {
        if (fault instanceof WireFault.DoubleReply) {
            return WireOutcome.Spoil.DOUBLED;
        }
        if (fault instanceof WireFault.WrongTransaction) {
            return WireOutcome.Spoil.OTHER_TRANSACTION;
        }
        if (fault instanceof WireFault.WrongUnit) {
            return WireOutcome.Spoil.OTHER_UNIT;
        }
        if (fault instanceof WireFault.CutReply) {
            return WireOutcome.Spoil.CUT;
        }
        throw new IllegalStateException("not a fault of a reply: " + fault);
    }

    private static byte[] shortened(byte[] response) {
        byte[] less = Arrays.copyOf(response, Math.max(1, response.length - 2));
        if (isRead(less[0]) && less.length > 1) {
            less[1] = (byte) (less.length - 2);
        }
        return less;
    }

    private WireOutcome sound(byte[] request, SimulatedDrive drive, Duration slower) {
        return reply(answer(request, drive), slower);
    }

    private byte[] answer(byte[] request, SimulatedDrive drive) {
        return others.contains(drive) ? drive.answerAsAnother(request) : drive.answer(request);
    }

    private static WireOutcome reply(byte[] pdu, Duration after) {
        return new WireOutcome.Reply(pdu, after, WireOutcome.Spoil.NONE);
    }

    private static boolean isRead(int function) {
        return function == RegisterServer.READ_HOLDING || function == RegisterServer.READ_INPUT;
    }
}
