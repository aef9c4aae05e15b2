package org.axtrial.registers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.FloatRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** What holds for every value: it comes back as it went. */
class RegisterCodecPropertiesTest {

    @Property
    void sixteenBitsRoundTrip(
            @ForAll @IntRange(min = 0, max = 65_535) int raw, @ForAll WordOrder words, @ForAll ByteOrder bytes) {
        roundTrip(Signals.signal(ValueType.UINT16, words, bytes), raw);
        roundTrip(Signals.signal(ValueType.INT16, words, bytes), (short) raw);
    }

    @Property
    void thirtyTwoBitsRoundTrip(
            @ForAll @LongRange(min = 0, max = 0xFFFF_FFFFL) long raw,
            @ForAll WordOrder words,
            @ForAll ByteOrder bytes) {
        roundTrip(Signals.signal(ValueType.UINT32, words, bytes), raw);
        roundTrip(Signals.signal(ValueType.INT32, words, bytes), raw + Integer.MIN_VALUE);
    }

    @Property
    void sixtyFourBitsRoundTrip(@ForAll long raw, @ForAll WordOrder words, @ForAll ByteOrder bytes) {
        SignalSpec signal = Signals.signal(ValueType.INT64, words, bytes);
        assertThat(RegisterCodec.decodeRaw(signal, RegisterCodec.encodeRaw(signal, raw)))
                .isEqualTo(raw);
    }

    @Property
    void floatsRoundTrip(
            @ForAll @FloatRange(min = -Float.MAX_VALUE, max = Float.MAX_VALUE) float value,
            @ForAll WordOrder words,
            @ForAll ByteOrder bytes) {
        SignalSpec signal = Signals.signal(ValueType.FLOAT32, words, bytes);
        assertThat(RegisterCodec.decode(signal, RegisterCodec.encode(signal, value)))
                .isEqualTo(value);
    }

    @Property
    void doublesRoundTrip(
            @ForAll @DoubleRange(min = -Double.MAX_VALUE, max = Double.MAX_VALUE) double value,
            @ForAll WordOrder words,
            @ForAll ByteOrder bytes) {
        SignalSpec signal = Signals.signal(ValueType.FLOAT64, words, bytes);
        assertThat(RegisterCodec.decode(signal, RegisterCodec.encode(signal, value)))
                .isEqualTo(value);
    }

    @Property
    void scaledValuesComeBackWithinHalfAStep(
            @ForAll @DoubleRange(min = -1000, max = 1000) double value,
            @ForAll @DoubleRange(min = 0.01, max = 10) double scale) {
        SignalSpec signal = Signals.signal(ValueType.INT32, WordOrder.LOW_FIRST, ByteOrder.HIGH_FIRST, scale, 3);
        assertThat(RegisterCodec.decode(signal, RegisterCodec.encode(signal, value)))
                .isCloseTo(value, within(scale / 2 + 1e-9));
    }

    private static void roundTrip(SignalSpec signal, long raw) {
        assertThat(RegisterCodec.decodeRaw(signal, RegisterCodec.encodeRaw(signal, raw)))
                .isEqualTo(raw);
        assertThat(RegisterCodec.encode(signal, (double) raw)).containsExactly(RegisterCodec.encodeRaw(signal, raw));
        assertThat(RegisterCodec.decode(signal, RegisterCodec.encodeRaw(signal, raw)))
                .isEqualTo((double) raw);
    }
}
