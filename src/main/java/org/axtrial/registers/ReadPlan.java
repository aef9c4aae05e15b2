package org.axtrial.registers;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * The fewest block reads that bring a set of signals: no block mixes tables, is longer than the drive allows, starts
 * before the first wanted register, ends after the last, or tears a signal.
 *
 * @param blocks the reads to send, holding registers first, then by address
 * @param slots where each wanted signal stands in the replies, in the order in which it was asked for
 * @param bridges whether a block covers registers that the description does not declare; a drive may refuse such a
 *     block (exception 02), and then a plan without bridges is the way out
 */
public record ReadPlan(List<Block> blocks, List<Slot> slots, boolean bridges) {

    /** Undeclared registers in a row that a block may cover; an own read would cost a round trip. */
    public static final int SMALL_GAP = 8;

    public ReadPlan {
        blocks = List.copyOf(blocks);
        slots = List.copyOf(slots);
    }

    /**
     * One read.
     *
     * @param table which table, and so which function code
     * @param address zero-based address of the first register
     * @param count registers, 1 … 125
     */
    public record Block(RegisterTable table, int address, int count) {}

    /**
     * Where a signal stands.
     *
     * @param signal the signal
     * @param block index into {@link ReadPlan#blocks}
     * @param offset of its first register in that block
     */
    public record Slot(SignalSpec signal, int block, int offset) {

        /** The signal's own words, cut out of the words of its block. */
        public int[] words(int[] blockWords) {
            return Arrays.copyOfRange(blockWords, offset, offset + signal.registers());
        }
    }

    /**
     * A plan for some signals of a drive. Declared signals that stand between the wanted ones are read along; at most
     * {@code gap} undeclared registers in a row are bridged.
     *
     * @param wanted the signals to read
     * @param description whose declared registers are known to exist and whose largest read holds
     * @param gap 0 for no bridges, else up to {@link #SMALL_GAP} or what the caller finds right
     * @throws IllegalArgumentException if a signal is wider than the largest read, or the gap is negative
     */
    public static ReadPlan of(Collection<SignalSpec> wanted, DriveDescription description, int gap) {
        if (gap < 0) {
            throw new IllegalArgumentException("the gap must not be negative, got " + gap);
        }
        List<SignalSpec> left = new ArrayList<>(wanted);
        left.sort(Comparator.comparing(SignalSpec::table).thenComparingInt(SignalSpec::address));
        int most = description.maxReadRegisters();
        for (SignalSpec signal : left) {
            if (signal.registers() > most) {
                throw new IllegalArgumentException(
                        signal.name() + ": " + signal.type().spelling() + " needs "
                                + signal.registers() + " registers in one read, the drive type " + description.type()
                                + " allows " + most);
            }
        }
        List<Block> blocks = new ArrayList<>();
        boolean bridges = false;
        while (!left.isEmpty()) {
            // Taking as much as fits from the lowest register on is the fewest reads: any other first block would
            // have to begin at the same register and could not reach further.
            RegisterTable table = left.get(0).table();
            Set<Integer> declared = declared(description, wanted, table);
            Block block = longest(left, declared, most, gap);
            bridges |= undeclared(declared, block.address(), block.address() + block.count()) > 0;
            blocks.add(block);
            left.removeIf(signal -> holds(block, signal));
        }
        return new ReadPlan(blocks, slots(wanted, blocks), bridges);
    }

    private static Block longest(List<SignalSpec> left, Set<Integer> declared, int most, int gap) {
        SignalSpec first = left.get(0);
        int end = first.address() + first.registers();
        for (SignalSpec signal : left) {
            int newEnd = Math.max(end, signal.address() + signal.registers());
            if (signal.table() != first.table()
                    || newEnd - first.address() > most
                    || longestGap(declared, end, signal.address()) > gap) {
                break;
            }
            end = newEnd;
        }
        return new Block(first.table(), first.address(), end - first.address());
    }

    private static boolean holds(Block block, SignalSpec signal) {
        return signal.table() == block.table()
                && signal.address() >= block.address()
                && signal.address() + signal.registers() <= block.address() + block.count();
    }

    private static List<Slot> slots(Collection<SignalSpec> wanted, List<Block> blocks) {
        List<Slot> slots = new ArrayList<>();
        for (SignalSpec signal : wanted) {
            for (int i = 0; i < blocks.size(); i++) {
                if (holds(blocks.get(i), signal)) {
                    slots.add(
                            new Slot(signal, i, signal.address() - blocks.get(i).address()));
                    break;
                }
            }
        }
        return slots;
    }

    private static Set<Integer> declared(
            DriveDescription description, Collection<SignalSpec> wanted, RegisterTable table) {
        Set<Integer> addresses = new TreeSet<>();
        List<SignalSpec> known = new ArrayList<>(description.signals().values());
        known.addAll(description.parameters());
        description.identity().forEach(constant -> known.add(constant.signal()));
        known.addAll(wanted);
        for (SignalSpec signal : known) {
            for (int i = 0; signal.table() == table && i < signal.registers(); i++) {
                addresses.add(signal.address() + i);
            }
        }
        return addresses;
    }

    private static int undeclared(Set<Integer> declared, int from, int to) {
        int count = 0;
        for (int address = from; address < to; address++) {
            count += declared.contains(address) ? 0 : 1;
        }
        return count;
    }

    private static int longestGap(Set<Integer> declared, int from, int to) {
        int longest = 0;
        int row = 0;
        for (int address = from; address < to; address++) {
            row = declared.contains(address) ? 0 : row + 1;
            longest = Math.max(longest, row);
        }
        return longest;
    }
}
