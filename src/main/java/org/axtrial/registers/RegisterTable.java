package org.axtrial.registers;

/** The two 16-bit tables of a Modbus server, with the function code that reads each. */
public enum RegisterTable {
    /** Read by function code 03, written by 06 and 16; references 4xxxx. */
    HOLDING(3),
    /** Read by function code 04, never written; references 3xxxx. */
    INPUT(4);

    private final int readFunction;

    RegisterTable(int readFunction) {
        this.readFunction = readFunction;
    }

    public int readFunction() {
        return readFunction;
    }
}
