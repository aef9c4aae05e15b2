package org.axtrial.registers;

import java.util.Arrays;
import java.util.Optional;

/** How one value is laid over one, two or four registers. */
public enum ValueType {
    INT16("int16", 1),
    UINT16("uint16", 1),
    INT32("int32", 2),
    UINT32("uint32", 2),
    INT64("int64", 4),
    FLOAT32("float32", 2),
    FLOAT64("float64", 4);

    private final String spelling;
    private final int registers;

    ValueType(String spelling, int registers) {
        this.spelling = spelling;
        this.registers = registers;
    }

    /** The spelling in a drive description. */
    public String spelling() {
        return spelling;
    }

    /** Width in 16-bit registers: 1, 2 or 4. */
    public int registers() {
        return registers;
    }

    public boolean isFloat() {
        return this == FLOAT32 || this == FLOAT64;
    }

    public static Optional<ValueType> of(String spelling) {
        return Arrays.stream(values())
                .filter(type -> type.spelling.equals(spelling))
                .findFirst();
    }
}
