package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CountDeltaTest {

    // Source: two's-complement arithmetic, worked by hand.
    @ParameterizedTest
    @CsvSource({
        "32, 2147483600, -2147483600, 96",
        "32, -2147483600, 2147483600, -96",
        "32, 2147483647, -2147483648, 1",
        "32, 0, -1, -1",
        "32, 4294967295, 0, 1",
        "32, 4294967200, 100, 196",
        "16, 65530, 10, 16",
        "16, 10, 65530, -16",
        "16, 32767, -32768, 1",
        "16, -6, 10, 16",
        "64, 9223372036854775807, -9223372036854775808, 1",
        "64, -9223372036854775808, 9223372036854775807, -1",
        "64, 0, 4611686018427387904, 4611686018427387904",
    })
    void wrapsLikeTheRegister(int bits, long from, long to, long expected) {
        assertThat(CountDelta.between(bits, from, to)).isEqualTo(expected);
    }

    @Property
    void anyTravelUpToHalfTheRangeIsFoundAgain(@ForAll int from, @ForAll int travel) {
        assertThat(CountDelta.between(32, from, Integer.toUnsignedLong(from + travel)))
                .isEqualTo(travel);
    }

    @Property
    void signedAndUnsignedReadingsAgree(@ForAll short from, @ForAll @IntRange(min = -32768, max = 32767) int travel) {
        int to = (from + travel) & 0xFFFF;
        assertThat(CountDelta.between(16, from & 0xFFFF, to)).isEqualTo(travel);
        assertThat(CountDelta.between(16, from, (short) to)).isEqualTo(travel);
    }

    @Test
    void anUnknownWidthIsRefused() {
        assertThatThrownBy(() -> CountDelta.between(24, 0, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a position register has 16, 32 or 64 bits, not 24");
    }

    @ParameterizedTest
    @CsvSource({"16, 65536", "16, -32769", "32, 4294967296", "32, -2147483649"})
    void aReadingThatDoesNotFitIsRefused(int bits, long reading) {
        assertThatThrownBy(() -> CountDelta.between(bits, reading, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(reading + " does not fit")
                .hasMessageContaining(bits + " bits");
        assertThatThrownBy(() -> CountDelta.between(bits, 0, reading)).isInstanceOf(IllegalArgumentException.class);
    }
}
