package org.axtrial.registers;

import java.util.Map;
import java.util.Optional;

/**
 * Error codes of the drive profile, CiA 402 object 603Fh, that are worth a text. Source: error code table of IEC
 * 61800-7-201 as reproduced by public object dictionaries.
 */
public final class FaultCodes {

    /** The motor was loaded for longer than its winding bears. */
    public static final int LOAD_LEVEL = 0x2350;
    /** Communication failed. */
    public static final int COMMUNICATION = 0x7500;
    /** The following error left its window for longer than its time-out. */
    public static final int FOLLOWING_ERROR = 0x8611;

    private static final int FIRST_OF_MAKER = 0xFF00;
    private static final int LAST = 0xFFFF;

    private static final Map<Integer, String> TEXTS = Map.ofEntries(
            Map.entry(0x2310, "continuous over-current"),
            Map.entry(LOAD_LEVEL, "load level (I²t)"),
            Map.entry(0x3130, "mains phase failure"),
            Map.entry(0x3210, "DC link over-voltage"),
            Map.entry(0x3220, "DC link under-voltage"),
            Map.entry(0x4210, "over-temperature of the device"),
            Map.entry(0x4310, "over-temperature of the drive"),
            Map.entry(0x6310, "loss of parameters"),
            Map.entry(0x6320, "parameter error"),
            Map.entry(0x7121, "motor blocked"),
            Map.entry(0x7122, "motor error or commutation malfunction"),
            Map.entry(0x7305, "incremental sensor 1"),
            Map.entry(COMMUNICATION, "communication"),
            Map.entry(0x8130, "life guard or heartbeat"),
            Map.entry(0x8400, "velocity controller"),
            Map.entry(FOLLOWING_ERROR, "following error"),
            Map.entry(0x8612, "reference limit"));

    private FaultCodes() {}

    /** What a code means; empty for 0 and for codes without a text here. FF00h and above belong to the maker. */
    public static Optional<String> text(int code) {
        if (code >= FIRST_OF_MAKER && code <= LAST) {
            return Optional.of("manufacturer specific");
        }
        return Optional.ofNullable(TEXTS.get(code));
    }
}
