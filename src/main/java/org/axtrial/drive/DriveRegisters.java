package org.axtrial.drive;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.ReentrantLock;
import org.axtrial.link.DeviceIdentification;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.Reply;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.ReadPlan;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalSpec;

/** Signals of one drive over its link: reads by plan, writes in as few requests as the map allows. */
final class DriveRegisters {

    /** Registers that one write by function 16 takes at most. Source: MODBUS Application Protocol V1.1b3, 6.12. */
    private static final int MOST_IN_ONE_WRITE = 123;

    /** Modbus exception 02: an address of the block is not in the drive's map. */
    private static final int ILLEGAL_ADDRESS = 2;

    private final RegisterLink link;
    private final DriveDescription description;
    private final IdentityProof identity;
    /** Held while the identity is proven and the write that relies on it goes out, and while the connection changes. */
    private final ReentrantLock proving = new ReentrantLock(true);

    private volatile boolean gapsMayBeRead = true;

    DriveRegisters(RegisterLink link, DriveDescription description) {
        this.link = link;
        this.description = description;
        this.identity = new IdentityProof(this);
    }

    DriveDescription description() {
        return description;
    }

    RegisterLink link() {
        return link;
    }

    /** What a look brought: the words of each signal, and the times of its first and last exchange. */
    record Look(Map<String, int[]> words, long sentNanos, long repliedNanos) {}

    /** A value on its way to the drive: it has been found to fit. */
    @SuppressWarnings("ArrayRecordComponent") // short-lived, never compared
    record Write(SignalSpec signal, int[] words) {}

    /**
     * Reads signals in as few blocks as the drive allows. What another drive shows is no answer, so that on a new
     * connection the identity is read first.
     *
     * @throws WrongDriveException if another drive answers
     */
    Look read(Collection<SignalSpec> wanted) throws DriveException {
        requireIdentity();
        return readUnproven(wanted);
    }

    /** Reads from whoever answers. */
    Look readUnproven(Collection<SignalSpec> wanted) throws DriveException {
        ReadPlan plan = plan(wanted);
        try {
            return read(plan);
        } catch (CommandRefusedException e) {
            if (!plan.bridges()
                    || !(e.getCause() instanceof DriveRefusedException refused)
                    || refused.code() != ILLEGAL_ADDRESS) {
                throw e;
            }
            // This drive does not answer for registers that its map leaves out: from now on the gaps are left out.
            gapsMayBeRead = false;
            return read(plan(wanted));
        }
    }

    /** Reads one signal, scaled. */
    double read(SignalSpec signal) throws DriveException {
        return value(signal, words(read(List.of(signal)), signal));
    }

    /** Reads the raw bits of an integer signal. */
    long readRaw(SignalSpec signal) throws DriveException {
        return RegisterCodec.decodeRaw(signal, words(read(List.of(signal)), signal));
    }

    int[] words(Look look, SignalSpec signal) {
        int[] words = look.words().get(signal.name());
        if (words == null) {
            throw new IllegalArgumentException("not read: " + signal.name());
        }
        return words;
    }

    /** The scaled value; a float register without a number in it is no valid answer. */
    double value(SignalSpec signal, int[] words) throws DriveUnreachableException {
        double value = RegisterCodec.decode(signal, words);
        if (!Double.isFinite(value)) {
            throw new DriveUnreachableException(
                    link.peer() + ": " + signal.name() + " at " + signal.place() + " holds no number (" + value
                            + "); check type, word order and address in the drive description",
                    new ArithmeticException("not finite: " + value));
        }
        return value;
    }

    /**
     * Writes values, neighbours together, in the order of their addresses. On a connection that is new the identity of the
     * drive is read first.
     *
     * @throws WrongDriveException if another drive answers; nothing was written
     * @return the reply to the last write
     */
    Reply write(List<Write> writes) throws DriveException {
        List<Write> left = new ArrayList<>(writes);
        left.sort(Comparator.comparingInt(write -> write.signal().address()));
        Reply last = new Reply(new int[0], 0, 0);
        for (int from = 0; from < left.size(); ) {
            int to = from + 1;
            while (to < left.size() && together(left.subList(from, to), left.get(to))) {
                to++;
            }
            last = writeOne(left.subList(from, to));
            from = to;
        }
        return last;
    }

    private boolean together(List<Write> block, Write next) {
        SignalSpec last = block.get(block.size() - 1).signal();
        int count = next.signal().address()
                + next.signal().registers()
                - block.get(0).signal().address();
        return last.writeFunction() == 16
                && next.signal().writeFunction() == 16
                && last.address() + last.registers() == next.signal().address()
                && count <= MOST_IN_ONE_WRITE;
    }

    private Reply writeOne(List<Write> block) throws DriveException {
        SignalSpec first = block.get(0).signal();
        proving.lock();
        try {
            identity.require();
            if (first.writeFunction() == 6) {
                return link.writeSingle(first.address(), block.get(0).words()[0]);
            }
            int[] words = block.stream()
                    .flatMapToInt(write -> Arrays.stream(write.words()))
                    .toArray();
            return link.writeBlock(first.address(), words);
        } catch (LinkException e) {
            throw wrapped("writing " + names(block), e);
        } finally {
            proving.unlock();
        }
    }

    /**
     * Proves on a new connection that the right drive answers; sends nothing on one that has been proven.
     *
     * @throws WrongDriveException if another drive answers
     */
    private void requireIdentity() throws DriveException {
        proving.lock();
        try {
            identity.require();
        } finally {
            proving.unlock();
        }
    }

    /** Makes a lost connection anew and proves on it that the right drive answers. */
    void reconnect() throws DriveException {
        proving.lock();
        try {
            link.reconnect();
            identity.require();
        } catch (LinkException e) {
            identity.forget();
            throw wrapped("connecting", e);
        } finally {
            proving.unlock();
        }
    }

    /** What the drive says of itself, by name of the object; empty if it does not tell. */
    Map<String, String> identification() throws DriveException {
        requireIdentity();
        try {
            Map<String, String> texts = new LinkedHashMap<>();
            if (link.identify() instanceof DeviceIdentification.Told told) {
                told.objects().forEach((id, text) -> {
                    if (id < DriveDescription.IDENTIFICATION_OBJECTS.size()) {
                        texts.put(DriveDescription.IDENTIFICATION_OBJECTS.get(id), text);
                    }
                });
            }
            return texts;
        } catch (LinkException e) {
            throw wrapped("reading the device identification", e);
        }
    }

    private ReadPlan plan(Collection<SignalSpec> wanted) {
        return ReadPlan.of(wanted, description, gapsMayBeRead ? ReadPlan.SMALL_GAP : 0);
    }

    private Look read(ReadPlan plan) throws DriveException {
        List<int[]> blocks = new ArrayList<>();
        long sent = 0;
        long replied = 0;
        for (ReadPlan.Block block : plan.blocks()) {
            try {
                Reply reply = link.read(block.table().readFunction(), block.address(), block.count());
                sent = blocks.isEmpty() ? reply.sentNanos() : sent;
                replied = reply.repliedNanos();
                blocks.add(reply.words());
            } catch (LinkException e) {
                throw wrapped("reading " + names(plan, block), e);
            }
        }
        Map<String, int[]> words = new HashMap<>();
        for (ReadPlan.Slot slot : plan.slots()) {
            words.put(slot.signal().name(), slot.words(blocks.get(slot.block())));
        }
        return new Look(words, sent, replied);
    }

    private static DriveException wrapped(String doing, LinkException e) {
        String message = doing + ": " + e.getMessage();
        if (e instanceof LinkLostException) {
            return new DriveUnreachableException(message, e);
        }
        if (e instanceof DriveRefusedException) {
            return new CommandRefusedException(message, e);
        }
        return new OutcomeUnknownException(message, e);
    }

    private static String names(List<Write> block) {
        return String.join(
                ", ", block.stream().map(write -> write.signal().name()).toList());
    }

    private static String names(ReadPlan plan, ReadPlan.Block block) {
        int index = plan.blocks().indexOf(block);
        return String.join(
                ", ",
                plan.slots().stream()
                        .filter(slot -> slot.block() == index)
                        .map(slot -> slot.signal().name())
                        .toList());
    }
}
