package org.axtrial.survey;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;

/** Raw register words as a drive shows them, where it shows any. */
final class Surroundings {

    /** Far enough for every other reading: one register lower, and four registers from one register higher on. */
    private static final int BELOW = 1;

    private static final int ABOVE = 5;

    private final Map<RegisterTable, Map<Integer, Integer>> words = new EnumMap<>(RegisterTable.class);

    Surroundings() {
        for (RegisterTable table : RegisterTable.values()) {
            words.put(table, new HashMap<>());
        }
    }

    private Map<Integer, Integer> table(RegisterTable table) {
        return words.computeIfAbsent(table, key -> new HashMap<>());
    }

    /** Adds a word, 0 … 65535. */
    Surroundings put(RegisterTable table, int address, int word) {
        table(table).put(address, word);
        return this;
    }

    /** The words that a layout covers, in the order of their addresses; empty if the drive does not show them all. */
    Optional<int[]> words(SignalSpec layout) {
        Map<Integer, Integer> known = table(layout.table());
        int[] found = new int[layout.registers()];
        for (int i = 0; i < found.length; i++) {
            Integer word = known.get(layout.address() + i);
            if (word == null) {
                return Optional.empty();
            }
            found[i] = word;
        }
        return Optional.of(found);
    }

    /**
     * Reads what stands around a value, in both tables. Registers that the drive refuses are left out.
     *
     * @param most largest block that may be asked for
     * @throws LinkException if the link is lost
     */
    static Surroundings read(RegisterLink link, SignalSpec around, int most) throws LinkException {
        Surroundings found = new Surroundings();
        int from = Math.max(0, around.address() - BELOW);
        int to = Math.min(65_536, around.address() + ABOVE);
        for (RegisterTable table : RegisterTable.values()) {
            if (to - from > most || !found.block(link, table, from, to - from)) {
                for (int address = from; address < to; address++) {
                    found.block(link, table, address, 1);
                }
            }
        }
        return found;
    }

    /** Reads one block; false if the drive refuses it. */
    private boolean block(RegisterLink link, RegisterTable table, int address, int count) throws LinkException {
        try {
            int[] read = link.read(table.readFunction(), address, count).words();
            for (int i = 0; i < read.length; i++) {
                put(table, address + i, read[i]);
            }
            return true;
        } catch (DriveRefusedException e) {
            return false;
        }
    }

    /** Words as a person compares them with a manual: {@code C402 5E91 hex}. */
    static String hex(int[] words) {
        return Arrays.stream(words)
                .mapToObj(word -> String.format(Locale.ROOT, "%04X", word))
                .collect(Collectors.joining(" ", "", " hex"));
    }

    /** Everything known around a place, for the record: {@code 29: 1267  30: 0000  31: –}. */
    String printed(SignalSpec around) {
        Map<Integer, Integer> known = table(around.table());
        int from = Math.max(0, around.address() - BELOW);
        return IntStream.range(from, Math.min(65_536, around.address() + around.registers() + 1))
                .mapToObj(address -> {
                    Integer word = known.get(address);
                    return address + ": " + (word == null ? "refused" : String.format(Locale.ROOT, "%04X", word));
                })
                .collect(Collectors.joining(", "));
    }
}
