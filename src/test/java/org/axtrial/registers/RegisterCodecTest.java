package org.axtrial.registers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RegisterCodecTest {

    // Source: IEEE 754 single precision and two's complement, bytes computed by hand; the four orders are common
    // practice, the Modbus specification defines nothing wider than 16 bits.
    @ParameterizedTest
    @CsvSource({
        "INT32, 305419896, 12345678, 56781234, 34127856, 78563412",
        "INT32, 5000, 00001388, 13880000, 00008813, 88130000",
        "INT32, 65536, 00010000, 00000001, 01000000, 00000100",
        "INT32, -123456, FFFE1DC0, 1DC0FFFE, FEFFC01D, C01DFEFF",
        "INT32, -1, FFFFFFFF, FFFFFFFF, FFFFFFFF, FFFFFFFF",
        "FLOAT32, 123.456, 42F6E979, E97942F6, F64279E9, 79E9F642",
        "FLOAT32, 1.0, 3F800000, 00003F80, 803F0000, 0000803F",
        "FLOAT32, -2.5, C0200000, 0000C020, 20C00000, 000020C0",
    })
    void theFourOrders(ValueType type, double value, String abcd, String cdab, String badc, String dcba) {
        double read = type == ValueType.FLOAT32 ? (float) value : value;
        row(Signals.signal(type, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST), value, read, abcd);
        row(Signals.signal(type, WordOrder.LOW_FIRST, ByteOrder.HIGH_FIRST), value, read, cdab);
        row(Signals.signal(type, WordOrder.HIGH_FIRST, ByteOrder.LOW_FIRST), value, read, badc);
        row(Signals.signal(type, WordOrder.LOW_FIRST, ByteOrder.LOW_FIRST), value, read, dcba);
    }

    private static void row(SignalSpec signal, double value, double read, String hex) {
        assertThat(hex(RegisterCodec.encode(signal, value))).isEqualTo(hex);
        assertThat(RegisterCodec.decode(signal, words(hex))).isEqualTo(read);
    }

    // Source: two's complement, by hand.
    @Test
    void wrongWordOrderReadsThePlausibleWrongNumber() {
        SignalSpec high = Signals.signal(ValueType.INT32, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST);
        SignalSpec low = Signals.signal(ValueType.INT32, WordOrder.LOW_FIRST, ByteOrder.HIGH_FIRST);
        assertThat(RegisterCodec.decodeRaw(low, RegisterCodec.encodeRaw(high, -123_456)))
                .isEqualTo(499_187_710);
        assertThat(RegisterCodec.decodeRaw(low, RegisterCodec.encodeRaw(high, 0x1234_5678)))
                .isEqualTo(1_450_709_556);
    }

    // Source: IEEE 754 single precision: 123.456 is read as 123.45600128 (8 decimals).
    @Test
    void singlePrecisionIsReadAsItIs() {
        assertThat(RegisterCodec.decode(Signals.plain(ValueType.FLOAT32), words("42F6E979")))
                .isCloseTo(123.45600128, within(5e-9));
    }

    // Source: IEEE 754 double precision: 1.0 = 3FF0000000000000, -2.5 = C004000000000000.
    @Test
    void doublePrecisionInFourRegisters() {
        SignalSpec low = Signals.signal(ValueType.FLOAT64, WordOrder.LOW_FIRST, ByteOrder.HIGH_FIRST);
        assertThat(hex(RegisterCodec.encode(Signals.plain(ValueType.FLOAT64), 1.0)))
                .isEqualTo("3FF0000000000000");
        assertThat(hex(RegisterCodec.encode(low, -2.5))).isEqualTo("000000000000C004");
    }

    // Source: two's complement of 16 and 64 bits; CiA 402 modes of operation are signed (FFFDh = -3).
    @Test
    void signsByType() {
        assertThat(RegisterCodec.decode(Signals.plain(ValueType.INT16), words("FFFD")))
                .isEqualTo(-3);
        assertThat(RegisterCodec.decode(Signals.plain(ValueType.UINT16), words("FFFD")))
                .isEqualTo(65_533);
        assertThat(RegisterCodec.decode(Signals.plain(ValueType.UINT32), words("FFFFFFFF")))
                .isEqualTo(4_294_967_295.0);
        assertThat(RegisterCodec.decodeRaw(Signals.plain(ValueType.INT64), words("8000000000000001")))
                .isEqualTo(Long.MIN_VALUE + 1);
    }

    // 2^53 + 1 is the first whole number that a double cannot hold.
    @Test
    void longsKeepEveryDigit() {
        long raw = (1L << 53) + 1;
        SignalSpec signal = Signals.plain(ValueType.INT64);
        assertThat(RegisterCodec.decodeRaw(signal, RegisterCodec.encodeRaw(signal, raw)))
                .isEqualTo(raw);
    }

    // Source: torque actual value 6077h in 0.1 % of rated torque: raw 1250 is 125.0 %.
    @Test
    void scaleAndOffset() {
        SignalSpec torque = Signals.signal(ValueType.INT16, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST, 0.1, 0);
        assertThat(RegisterCodec.decode(torque, new int[] {1250})).isEqualTo(125.0);
        SignalSpec shifted = Signals.signal(ValueType.UINT16, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST, 0.5, -40);
        assertThat(RegisterCodec.decode(shifted, new int[] {0})).isEqualTo(-40);
        assertThat(RegisterCodec.encode(shifted, 25)).containsExactly(130);
    }

    @Test
    void roundsToTheNearestStep() {
        SignalSpec tenth = Signals.signal(ValueType.INT16, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST, 0.1, 0);
        assertThat(RegisterCodec.encode(tenth, 12.34)).containsExactly(123);
        assertThat(RegisterCodec.encode(tenth, 12.36)).containsExactly(124);
    }

    @Test
    void tooLargeIsRefusedWithNameValueAndRange() {
        assertThatThrownBy(() -> RegisterCodec.encode(Signals.plain(ValueType.UINT16), 70_000))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "value: 70000 count does not fit uint16 at address 10 (reference 40011); it takes 0 … 65535 count");
        SignalSpec falling = Signals.signal(ValueType.INT16, WordOrder.HIGH_FIRST, ByteOrder.HIGH_FIRST, -0.5, 0);
        assertThatThrownBy(() -> RegisterCodec.encode(falling, 16_385))
                .hasMessageContaining("it takes -16383.5 … 16384 count");
        assertThatThrownBy(() -> RegisterCodec.encodeRaw(Signals.plain(ValueType.UINT16), -1))
                .hasMessageContaining("raw -1 does not fit uint16")
                .hasMessageContaining("0 … 65535");
    }

    @Test
    void theEdgesFitAndOneStepBeyondDoesNot() {
        for (ValueType type : new ValueType[] {ValueType.INT16, ValueType.UINT16, ValueType.INT32, ValueType.UINT32}) {
            SignalSpec signal = Signals.plain(type);
            double lowest = type == ValueType.INT16 ? -32_768 : type == ValueType.INT32 ? -2_147_483_648.0 : 0;
            double highest = lowest + Math.pow(2, 16.0 * type.registers()) - 1;
            assertThat(RegisterCodec.decode(signal, RegisterCodec.encode(signal, lowest)))
                    .isEqualTo(lowest);
            assertThat(RegisterCodec.decode(signal, RegisterCodec.encode(signal, highest)))
                    .isEqualTo(highest);
            assertThatThrownBy(() -> RegisterCodec.encode(signal, lowest - 1)).hasMessageContaining("does not fit");
            assertThatThrownBy(() -> RegisterCodec.encode(signal, highest + 1)).hasMessageContaining("does not fit");
        }
        SignalSpec wide = Signals.plain(ValueType.INT64);
        assertThat(RegisterCodec.decodeRaw(wide, RegisterCodec.encode(wide, -0x1p63)))
                .isEqualTo(Long.MIN_VALUE);
        assertThatThrownBy(() -> RegisterCodec.encode(wide, 0x1p63)).hasMessageContaining("does not fit int64");
        assertThatThrownBy(() -> RegisterCodec.encode(Signals.plain(ValueType.FLOAT32), 1e39))
                .hasMessageContaining("does not fit float32");
    }

    @Test
    void notANumberIsRefused() {
        for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThatThrownBy(() -> RegisterCodec.encode(Signals.plain(ValueType.FLOAT64), bad))
                    .hasMessageContaining("must be finite");
        }
    }

    @Test
    void wordsMustBeTheSignals() {
        SignalSpec signal = Signals.plain(ValueType.INT32);
        assertThatThrownBy(() -> RegisterCodec.decode(signal, new int[] {1}))
                .hasMessage("value: int32 has 2 register(s), got 1");
        assertThatThrownBy(() -> RegisterCodec.decode(signal, new int[] {1, 65_536}))
                .hasMessageContaining("0 … 65535, got 65536");
        assertThatThrownBy(() -> RegisterCodec.decodeRaw(Signals.plain(ValueType.FLOAT32), new int[] {1, 1}))
                .hasMessageContaining("no raw integer");
    }

    // Source: common reference-number convention; MODBUS Application Protocol V1.1b3, 6.3 reads registers 108 … 110
    // at address 006Bh.
    @ParameterizedTest
    @CsvSource({"HOLDING, 0, 40001", "HOLDING, 107, 40108", "INPUT, 8, 30009", "HOLDING, 9998, 49999"})
    void theReferenceIsTheAddressPlusOne(RegisterTable table, int address, String reference) {
        assertThat(Signals.at("x", table, address, ValueType.INT16).place())
                .isEqualTo("address " + address + " (reference " + reference + ")");
    }

    private static String hex(int[] words) {
        StringBuilder text = new StringBuilder();
        Arrays.stream(words)
                .forEach(word -> text.append(HexFormat.of().withUpperCase().toHexDigits((short) word)));
        return text.toString();
    }

    private static int[] words(String hex) {
        int[] words = new int[hex.length() / 4];
        for (int i = 0; i < words.length; i++) {
            words[i] = Integer.parseInt(hex.substring(4 * i, 4 * i + 4), 16);
        }
        return words;
    }
}
