package org.axtrial.registers;

import java.util.Locale;

/**
 * Turns register words into values and back: {@code value = raw × scale + offset}.
 *
 * <p>Modbus defines one 16-bit register, high byte first, and nothing wider (MODBUS Application Protocol V1.1b3, 4.2);
 * order of words and of bytes therefore come from the description. Integers are two's complement, floats IEEE 754.
 */
public final class RegisterCodec {

    private static final int WORD_MASK = 0xFFFF;
    private static final double TWO_TO_63 = 0x1p63;

    private RegisterCodec() {}

    /**
     * The scaled value, in the unit of the signal. An int64 beyond ±2⁵³ is rounded to the nearest double; use
     * {@link #decodeRaw} where every digit counts. A float register may hold NaN or infinity and is returned as it is.
     *
     * @param words the words of the signal in the order of their addresses, 0 … 65535 each
     * @throws IllegalArgumentException if the number of words is not the signal's, or a word is out of range
     */
    public static double decode(SignalSpec signal, int[] words) {
        long bits = bits(signal, words);
        double raw = switch (signal.type()) {
            case INT16, UINT16, INT32, UINT32, INT64 -> (double) extend(signal.type(), bits);
            case FLOAT32 -> Float.intBitsToFloat((int) bits);
            case FLOAT64 -> Double.longBitsToDouble(bits);
        };
        return raw * signal.scale() + signal.offset();
    }

    /**
     * The raw number of an integer signal, unscaled and with all digits.
     *
     * @throws IllegalArgumentException if the signal is a float, or the words are not the signal's
     */
    public static long decodeRaw(SignalSpec signal, int[] words) {
        refuseFloat(signal);
        return extend(signal.type(), bits(signal, words));
    }

    /**
     * The words of a scaled value, in the order of their addresses. Integers are rounded to the nearest raw step;
     * nothing is ever clipped.
     *
     * @param value in the unit of the signal
     * @throws IllegalArgumentException with name, value and range, if the value is not finite or does not fit
     */
    public static int[] encode(SignalSpec signal, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(signal.name() + ": the value must be finite, got " + value);
        }
        double raw = (value - signal.offset()) / signal.scale();
        return switch (signal.type()) {
            case INT16, UINT16, INT32, UINT32, INT64 -> words(signal, integer(signal, value, raw));
            case FLOAT32 -> words(signal, Float.floatToRawIntBits(single(signal, value, raw)));
            case FLOAT64 -> words(signal, Double.doubleToRawLongBits(finite(signal, value, raw)));
        };
    }

    /**
     * The words of a raw integer, unscaled and with all digits.
     *
     * @throws IllegalArgumentException with name, value and range, if the raw number does not fit or the signal is a
     *     float
     */
    public static int[] encodeRaw(SignalSpec signal, long raw) {
        refuseFloat(signal);
        if (raw < lowest(signal.type()) || raw > highest(signal.type())) {
            throw new IllegalArgumentException(signal.name() + ": raw " + raw + " does not fit "
                    + signal.type().spelling() + " at " + signal.place() + "; it takes " + lowest(signal.type())
                    + " … " + highest(signal.type()));
        }
        return words(signal, raw);
    }

    private static long integer(SignalSpec signal, double value, double raw) {
        double rounded = Math.rint(raw);
        ValueType type = signal.type();
        // (double) Long.MAX_VALUE is 2^63, which a long cannot hold, so the upper end of int64 is compared open.
        boolean fits = type == ValueType.INT64
                ? rounded >= -TWO_TO_63 && rounded < TWO_TO_63
                : rounded >= (double) lowest(type) && rounded <= (double) highest(type);
        if (!fits) {
            throw doesNotFit(signal, value, (double) lowest(type), (double) highest(type));
        }
        return (long) rounded;
    }

    private static float single(SignalSpec signal, double value, double raw) {
        float single = (float) raw;
        if (!Float.isFinite(single)) {
            throw doesNotFit(signal, value, -Float.MAX_VALUE, Float.MAX_VALUE);
        }
        return single;
    }

    private static double finite(SignalSpec signal, double value, double raw) {
        if (!Double.isFinite(raw)) {
            throw doesNotFit(signal, value, -Double.MAX_VALUE, Double.MAX_VALUE);
        }
        return raw;
    }

    private static IllegalArgumentException doesNotFit(SignalSpec signal, double value, double lowest, double highest) {
        double one = lowest * signal.scale() + signal.offset();
        double other = highest * signal.scale() + signal.offset();
        String unit = " " + signal.unit().symbol();
        return new IllegalArgumentException(signal.name() + ": " + number(value) + unit + " does not fit "
                + signal.type().spelling() + " at "
                + signal.place() + "; it takes " + number(Math.min(one, other)) + " … "
                + number(Math.max(one, other)) + unit);
    }

    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? String.format(Locale.ROOT, "%.0f", value)
                : Double.toString(value);
    }

    private static void refuseFloat(SignalSpec signal) {
        if (signal.type().isFloat()) {
            throw new IllegalArgumentException(
                    signal.name() + ": a " + signal.type().spelling() + " has no raw integer; use the scaled value");
        }
    }

    private static long lowest(ValueType type) {
        return switch (type) {
            case INT16 -> Short.MIN_VALUE;
            case INT32 -> Integer.MIN_VALUE;
            case INT64 -> Long.MIN_VALUE;
            case UINT16, UINT32 -> 0;
            case FLOAT32, FLOAT64 -> throw new IllegalArgumentException("not an integer: " + type);
        };
    }

    private static long highest(ValueType type) {
        return switch (type) {
            case INT16 -> Short.MAX_VALUE;
            case UINT16 -> 0xFFFFL;
            case INT32 -> Integer.MAX_VALUE;
            case UINT32 -> 0xFFFF_FFFFL;
            case INT64 -> Long.MAX_VALUE;
            case FLOAT32, FLOAT64 -> throw new IllegalArgumentException("not an integer: " + type);
        };
    }

    /** Sign extension from the width of the type. */
    private static long extend(ValueType type, long bits) {
        return switch (type) {
            case INT16 -> (short) bits;
            case INT32 -> (int) bits;
            case UINT16, UINT32, INT64 -> bits;
            case FLOAT32, FLOAT64 -> throw new IllegalArgumentException("not an integer: " + type);
        };
    }

    private static long bits(SignalSpec signal, int[] words) {
        int width = signal.registers();
        if (words.length != width) {
            throw new IllegalArgumentException(signal.name() + ": "
                    + signal.type().spelling() + " has " + width + " register(s), got " + words.length);
        }
        long bits = 0;
        for (int significance = 0; significance < width; significance++) {
            int word = words[index(signal, significance)];
            if (word < 0 || word > WORD_MASK) {
                throw new IllegalArgumentException(signal.name() + ": a register word is 0 … 65535, got " + word);
            }
            bits = bits << 16 | ordered(signal, word);
        }
        return bits;
    }

    private static int[] words(SignalSpec signal, long bits) {
        int width = signal.registers();
        int[] words = new int[width];
        for (int significance = 0; significance < width; significance++) {
            int word = (int) (bits >>> (16 * (width - 1 - significance))) & WORD_MASK;
            words[index(signal, significance)] = ordered(signal, word);
        }
        return words;
    }

    /** Where the word of that significance stands, 0 being the most significant. */
    private static int index(SignalSpec signal, int significance) {
        return signal.wordOrder() == WordOrder.HIGH_FIRST ? significance : signal.registers() - 1 - significance;
    }

    private static int ordered(SignalSpec signal, int word) {
        return signal.byteOrder() == ByteOrder.HIGH_FIRST ? word : (word & 0xFF) << 8 | word >>> 8;
    }
}
