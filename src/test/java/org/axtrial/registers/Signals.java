package org.axtrial.registers;

import org.axtrial.quantity.Unit;

/** Signals for tests, plain unless told otherwise. */
final class Signals {

    private Signals() {}

    static SignalSpec signal(ValueType type, WordOrder words, ByteOrder bytes) {
        return signal(type, words, bytes, 1, 0);
    }

    static SignalSpec signal(ValueType type, WordOrder words, ByteOrder bytes, double scale, double offset) {
        return new SignalSpec(
                "value", RegisterTable.HOLDING, 10, type, words, bytes, scale, offset, Unit.COUNT, true, 16);
    }

    static SignalSpec plain(ValueType type) {
        return signal(type, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST);
    }

    static SignalSpec at(String name, RegisterTable table, int address, ValueType type) {
        return new SignalSpec(
                name,
                table,
                address,
                type,
                WordOrder.HIGH_FIRST,
                ByteOrder.HIGH_FIRST,
                1,
                0,
                Unit.COUNT,
                table == RegisterTable.HOLDING,
                16);
    }
}
