package org.axtrial.registers;

import org.axtrial.quantity.Unit;

/**
 * One typed value of a drive: where it stands and what its raw number means.
 *
 * <p>{@code value = raw × scale + offset}, in {@code unit}.
 *
 * @param name the name in the drive description, for example {@code position}
 * @param table where it stands
 * @param address zero-based address of its first register, 0 … 65535
 * @param type width and sign
 * @param wordOrder order of words for types wider than 16 bits
 * @param byteOrder order of bytes in each register
 * @param scale engineering value of one raw step, finite and not zero
 * @param offset engineering value of raw zero, finite
 * @param unit unit of the scaled value
 * @param writable whether the tool may write it
 * @param writeFunction 6 for single-register writes, 16 for block writes
 */
public record SignalSpec(
        String name,
        RegisterTable table,
        int address,
        ValueType type,
        WordOrder wordOrder,
        ByteOrder byteOrder,
        double scale,
        double offset,
        Unit unit,
        boolean writable,
        int writeFunction) {

    public SignalSpec {
        if (address < 0 || address + type.registers() > 65_536) {
            throw new IllegalArgumentException(
                    name + ": address must be 0 … " + (65_536 - type.registers()) + ", got " + address);
        }
        if (!Double.isFinite(scale) || scale == 0 || !Double.isFinite(offset)) {
            throw new IllegalArgumentException(
                    name + ": scale must be finite and not zero, offset finite, got " + scale + " and " + offset);
        }
        if (writable && table == RegisterTable.INPUT) {
            throw new IllegalArgumentException(name + ": input registers cannot be written");
        }
        if (writeFunction != 6 && writeFunction != 16) {
            throw new IllegalArgumentException(name + ": the write function is 6 or 16, got " + writeFunction);
        }
        if (writeFunction == 6 && type.registers() != 1) {
            throw new IllegalArgumentException(
                    name + ": function 6 writes one register, " + type.spelling() + " needs " + type.registers());
        }
    }

    /** Number of registers it occupies. */
    public int registers() {
        return type.registers();
    }

    /** How a person finds it in a manual: address and one-based reference. */
    public String place() {
        int base = table == RegisterTable.HOLDING ? 40_001 : 30_001;
        return "address " + address + (address < 9_999 ? " (reference " + (base + address) + ")" : "");
    }
}
