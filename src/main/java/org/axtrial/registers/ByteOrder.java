package org.axtrial.registers;

/** Order of the two bytes inside each register. Modbus itself sends the high byte first. */
public enum ByteOrder {
    HIGH_FIRST,
    LOW_FIRST
}
