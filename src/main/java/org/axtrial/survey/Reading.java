package org.axtrial.survey;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;

/**
 * One way to read a value.
 *
 * @param layout place, type, orders and scale of this reading
 * @param changes how it differs from the description; empty for the description's own reading
 */
record Reading(SignalSpec layout, Set<Change> changes) {

    private static final int MOST_CHANGES = 3;

    /** The type comes before the order of words, because only wide types have one. */
    private static final List<Change> IN_TURN = List.of(
            Change.ADDRESS,
            Change.TABLE,
            Change.SIGN,
            Change.FLOAT,
            Change.WIDTH,
            Change.WORD_ORDER,
            Change.BYTE_ORDER,
            Change.SCALE);

    Reading {
        changes =
                Collections.unmodifiableSet(changes.isEmpty() ? EnumSet.noneOf(Change.class) : EnumSet.copyOf(changes));
    }

    /** How far it is from the description, to rank readings with as many changes. */
    double weight() {
        return changes.stream().mapToDouble(Change::weight).sum();
    }

    /** Whether it needs no other registers than those of the declared place. */
    boolean isWithin(SignalSpec declared) {
        return layout.table() == declared.table()
                && layout.address() >= declared.address()
                && layout.address() + layout.registers() <= declared.address() + declared.registers();
    }

    /** Every reading that differs from the description by one to three changes, in no order. */
    static List<Reading> others(SignalSpec declared) {
        List<Reading> readings = List.of(new Reading(declared, Set.of()));
        for (Change change : IN_TURN) {
            List<Reading> more = new ArrayList<>(readings);
            for (Reading reading : readings) {
                if (reading.changes.size() < MOST_CHANGES) {
                    variants(reading.layout, change)
                            .forEach(layout -> more.add(new Reading(layout, with(reading.changes, change))));
                }
            }
            readings = more;
        }
        return readings.stream().filter(reading -> !reading.changes.isEmpty()).toList();
    }

    private static Set<Change> with(Set<Change> changes, Change change) {
        EnumSet<Change> more = EnumSet.of(change);
        more.addAll(changes);
        return more;
    }

    private static List<SignalSpec> variants(SignalSpec s, Change change) {
        return switch (change) {
            case ADDRESS ->
                List.of(-1, 1).stream()
                        .map(step -> s.address() + step)
                        .filter(address -> address >= 0 && address + s.registers() <= 65_536)
                        .map(address -> copy(s, s.table(), address, s.type(), s.wordOrder(), s.byteOrder(), s.scale()))
                        .toList();
            case TABLE ->
                List.of(copy(s, other(s.table()), s.address(), s.type(), s.wordOrder(), s.byteOrder(), s.scale()));
            case WORD_ORDER ->
                s.registers() == 1
                        ? List.of()
                        : List.of(copy(
                                s,
                                s.table(),
                                s.address(),
                                s.type(),
                                s.wordOrder() == WordOrder.HIGH_FIRST ? WordOrder.LOW_FIRST : WordOrder.HIGH_FIRST,
                                s.byteOrder(),
                                s.scale()));
            case BYTE_ORDER ->
                List.of(copy(
                        s,
                        s.table(),
                        s.address(),
                        s.type(),
                        s.wordOrder(),
                        s.byteOrder() == ByteOrder.HIGH_FIRST ? ByteOrder.LOW_FIRST : ByteOrder.HIGH_FIRST,
                        s.scale()));
            case SIGN -> types(s, signs(s.type()));
            case FLOAT -> types(s, floats(s.type()));
            case WIDTH -> types(s, widths(s.type()));
            case SCALE ->
                List.of(10.0, 0.1).stream()
                        .map(factor -> copy(
                                s,
                                s.table(),
                                s.address(),
                                s.type(),
                                s.wordOrder(),
                                s.byteOrder(),
                                factor > 1 ? s.scale() * 10 : s.scale() / 10))
                        .toList();
        };
    }

    private static List<SignalSpec> types(SignalSpec s, List<ValueType> types) {
        return types.stream()
                .filter(type -> s.address() + type.registers() <= 65_536)
                .map(type -> copy(s, s.table(), s.address(), type, s.wordOrder(), s.byteOrder(), s.scale()))
                .toList();
    }

    private static List<ValueType> signs(ValueType type) {
        return switch (type) {
            case INT16 -> List.of(ValueType.UINT16);
            case UINT16 -> List.of(ValueType.INT16);
            case INT32 -> List.of(ValueType.UINT32);
            case UINT32 -> List.of(ValueType.INT32);
            case INT64, FLOAT32, FLOAT64 -> List.of();
        };
    }

    private static List<ValueType> floats(ValueType type) {
        return switch (type) {
            case INT32, UINT32 -> List.of(ValueType.FLOAT32);
            case INT64 -> List.of(ValueType.FLOAT64);
            case FLOAT32 -> List.of(ValueType.INT32, ValueType.UINT32);
            case FLOAT64 -> List.of(ValueType.INT64);
            case INT16, UINT16 -> List.of();
        };
    }

    private static List<ValueType> widths(ValueType type) {
        return switch (type) {
            case INT16 -> List.of(ValueType.INT32);
            case UINT16 -> List.of(ValueType.UINT32);
            case INT32 -> List.of(ValueType.INT16, ValueType.INT64);
            case UINT32 -> List.of(ValueType.UINT16);
            case INT64 -> List.of(ValueType.INT32);
            case FLOAT32 -> List.of(ValueType.FLOAT64);
            case FLOAT64 -> List.of(ValueType.FLOAT32);
        };
    }

    private static RegisterTable other(RegisterTable table) {
        return table == RegisterTable.HOLDING ? RegisterTable.INPUT : RegisterTable.HOLDING;
    }

    private static SignalSpec copy(
            SignalSpec s,
            RegisterTable table,
            int address,
            ValueType type,
            WordOrder words,
            ByteOrder bytes,
            double scale) {
        // Only ever read, so that the access of the declared value does not matter here.
        return new SignalSpec(s.name(), table, address, type, words, bytes, scale, s.offset(), s.unit(), false, 16);
    }

    /** Whether words of that kind cannot tell one reading from another: all bits alike. */
    static boolean isBlank(int[] words) {
        return Arrays.stream(words).allMatch(word -> word == 0)
                || Arrays.stream(words).allMatch(word -> word == 0xFFFF);
    }
}
