package org.axtrial.sim;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.axtrial.registers.RegisterTable;

/**
 * The registers of one drive. Registers that the description does not declare, but that lie between the first and the
 * last declared one of their table, read as 0, so that block reads over gaps work; all others do not exist.
 */
final class RegisterImage {

    private final Map<RegisterTable, NavigableMap<Integer, RegisterCell>> tables = new EnumMap<>(RegisterTable.class);
    private final Map<String, RegisterCell> byName = new HashMap<>();
    private final List<String> problems = new ArrayList<>();

    RegisterImage() {
        for (RegisterTable table : RegisterTable.values()) {
            tables.put(table, new TreeMap<>());
        }
    }

    /**
     * Adds a cell. One that stands in the very place of an earlier one, as an identity constant that is also a
     * parameter does, is the same register and leaves the earlier one; one that overlaps differently is a problem.
     */
    void add(RegisterCell cell) {
        NavigableMap<Integer, RegisterCell> table = cells(cell.spec().table());
        Map.Entry<Integer, RegisterCell> before = table.lowerEntry(cell.end());
        if (before == null || before.getValue().end() <= cell.first()) {
            table.put(cell.first(), cell);
            byName.putIfAbsent(cell.spec().name(), cell);
            return;
        }
        RegisterCell other = before.getValue();
        if (other.first() != cell.first() || other.spec().type() != cell.spec().type()) {
            problems.add(cell.spec().name() + " at " + cell.spec().place() + " overlaps "
                    + other.spec().name() + " at " + other.spec().place());
        } else {
            byName.putIfAbsent(cell.spec().name(), other);
        }
    }

    /** What was wrong with the cells added so far. */
    List<String> problems() {
        return List.copyOf(problems);
    }

    Optional<RegisterCell> find(String name) {
        return Optional.ofNullable(byName.get(name));
    }

    /** Every cell that holds what was written, by address. */
    List<RegisterCell.Held> held() {
        List<RegisterCell.Held> all = new ArrayList<>();
        for (RegisterTable table : RegisterTable.values()) {
            for (RegisterCell cell : cells(table).values()) {
                if (cell instanceof RegisterCell.Held holding) {
                    all.add(holding);
                }
            }
        }
        return all;
    }

    private NavigableMap<Integer, RegisterCell> cells(RegisterTable table) {
        NavigableMap<Integer, RegisterCell> cells = tables.get(table);
        if (cells == null) {
            throw new IllegalStateException("no table " + table);
        }
        return cells;
    }

    /** What every register showed at one instant. */
    static final class Snapshot {

        private final Map<RegisterCell, int[]> words = new HashMap<>();

        /** The words of a cell as they were. */
        int[] frozen(RegisterCell cell) {
            int[] old = words.get(cell);
            return old == null ? cell.words() : old;
        }

        /** The first word as it is now, the others as they were. */
        int[] torn(RegisterCell cell) {
            int[] mixed = frozen(cell).clone();
            mixed[0] = cell.words()[0];
            return mixed;
        }
    }

    Snapshot snapshot() {
        Snapshot snapshot = new Snapshot();
        tables.values()
                .forEach(cells -> cells.values()
                        .forEach(cell -> snapshot.words.put(cell, cell.words().clone())));
        return snapshot;
    }

    /** The words of a block, or empty if it reaches outside the table. */
    Optional<int[]> read(RegisterTable table, int address, int count) {
        return read(table, address, count, RegisterCell::words);
    }

    /** The words of a block as somebody sees them, or empty if it reaches outside the table. */
    Optional<int[]> read(RegisterTable table, int address, int count, Function<RegisterCell, int[]> sight) {
        NavigableMap<Integer, RegisterCell> cells = cells(table);
        if (cells.isEmpty()
                || address < cells.firstKey()
                || address + count > cells.lastEntry().getValue().end()) {
            return Optional.empty();
        }
        int[] block = new int[count];
        Integer begin = cells.floorKey(address);
        for (RegisterCell cell : cells.subMap(begin == null ? address : begin, true, address + count, false)
                .values()) {
            int[] words = sight.apply(cell);
            for (int i = 0; i < words.length; i++) {
                int at = cell.first() + i - address;
                if (at >= 0 && at < count) {
                    block[at] = words[i];
                }
            }
        }
        return Optional.of(block);
    }

    /**
     * The cells that a written block covers, or empty if it covers anything else than whole writable values: the drive
     * never acts on half a value.
     */
    Optional<List<RegisterCell>> covered(int address, int count) {
        NavigableMap<Integer, RegisterCell> cells = cells(RegisterTable.HOLDING);
        List<RegisterCell> covered = new ArrayList<>();
        for (int at = address; at < address + count; ) {
            RegisterCell cell = cells.get(at);
            if (cell == null || !cell.spec().writable() || cell.end() > address + count) {
                return Optional.empty();
            }
            covered.add(cell);
            at = cell.end();
        }
        return Optional.of(covered);
    }
}
