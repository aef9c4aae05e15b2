package org.axtrial.registers;

/** Which word of a value wider than 16 bits stands at the lower address. The Modbus specification leaves it open. */
public enum WordOrder {
    HIGH_FIRST,
    LOW_FIRST
}
