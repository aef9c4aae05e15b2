package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProofTest {

    private static SignalSpec spec(ValueType type) {
        return new SignalSpec(
                "code",
                RegisterTable.HOLDING,
                10,
                type,
                WordOrder.HIGH_FIRST,
                ByteOrder.HIGH_FIRST,
                1,
                0,
                Unit.ONE,
                false,
                16);
    }

    // Source: the definition in Proof, applied by hand
    @ParameterizedTest
    @CsvSource({
        "UINT32, 0, NOTHING",
        "INT32, -1, NOTHING",
        "UINT32, 4294967295, NOTHING",
        // 1234 1234: the words swapped read the same
        "UINT32, 305402420, NOTHING",
        // 1234 3412: all bytes backwards read the same
        "UINT32, 305411090, NOTHING",
        // 1111 2222: the bytes of each register swapped read the same
        "UINT32, 286335522, NOTHING",
        // 0001 0002: zeros in two places, so that the bytes are not all different
        "UINT32, 65538, PLACE",
        // C402 5E91
        "UINT32, 3288489617, ALL",
        "UINT16, 307, PLACE",
        "UINT16, 0, NOTHING",
        "UINT16, 257, NOTHING"
    })
    void ofConstants(ValueType type, double expected, Proof proof) {
        assertThat(Proof.of(spec(type), expected)).isEqualTo(proof);
    }
}
