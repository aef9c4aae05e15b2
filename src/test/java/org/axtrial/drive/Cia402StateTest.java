package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Cia402StateTest {

    // Source: statusword 6041h of IEC 61800-7-201 (from memory, agrees with public object dictionaries): sample words.
    @ParameterizedTest
    @CsvSource({
        "0x0000, NOT_READY_TO_SWITCH_ON",
        "0x0200, NOT_READY_TO_SWITCH_ON",
        "0x0040, SWITCH_ON_DISABLED",
        "0x0240, SWITCH_ON_DISABLED",
        "0x0250, SWITCH_ON_DISABLED",
        "0x0021, READY_TO_SWITCH_ON",
        "0x0231, READY_TO_SWITCH_ON",
        "0x0023, SWITCHED_ON",
        "0x0233, SWITCHED_ON",
        "0x0027, OPERATION_ENABLED",
        "0x0237, OPERATION_ENABLED",
        "0x1637, OPERATION_ENABLED",
        "0x0007, QUICK_STOP_ACTIVE",
        "0x0217, QUICK_STOP_ACTIVE",
        "0x000F, FAULT_REACTION_ACTIVE",
        "0x021F, FAULT_REACTION_ACTIVE",
        "0x0008, FAULT",
        "0x0218, FAULT",
        "0x0020, NOT_READY_TO_SWITCH_ON",
        "0x0001, UNKNOWN",
        "0x0077, UNKNOWN",
    })
    void sampleWords(String word, Cia402State state) {
        assertThat(Cia402State.of(Integer.decode(word))).isEqualTo(state);
    }

    // Source: counted over the patterns of the standard: 4 where bit 5 is free, 2 where it is fixed (bit 4 is always
    // free), and 104 of 128 values are undefined.
    @Test
    void all128Patterns() {
        Map<Cia402State, Integer> counts = new EnumMap<>(Cia402State.class);
        for (int word = 0; word < 128; word++) {
            counts.merge(Cia402State.of(word), 1, Integer::sum);
        }
        assertThat(counts)
                .containsExactlyInAnyOrderEntriesOf(Map.of(
                        Cia402State.NOT_READY_TO_SWITCH_ON, 4,
                        Cia402State.SWITCH_ON_DISABLED, 4,
                        Cia402State.READY_TO_SWITCH_ON, 2,
                        Cia402State.SWITCHED_ON, 2,
                        Cia402State.OPERATION_ENABLED, 2,
                        Cia402State.QUICK_STOP_ACTIVE, 2,
                        Cia402State.FAULT_REACTION_ACTIVE, 4,
                        Cia402State.FAULT, 4,
                        Cia402State.UNKNOWN, 104));
    }

    @Test
    void theHigherBitsAndBit4DoNotMatter() {
        for (int word = 0; word < 0x10000; word++) {
            assertThat(Cia402State.of(word)).isEqualTo(Cia402State.of(word & 0x6F));
        }
    }
}
