package org.axtrial.registers;

/** How a drive is told to move; the sequences themselves live in {@code drive}. */
public enum CommandStyle {
    /** Controlword, statusword and set-point handshake of IEC 61800-7-201 (CiA 402). */
    CIA402,
    /** A write to the relative-move or speed register starts motion, so a repeated write repeats the move. */
    DIRECT
}
