package org.axtrial.registers;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FaultCodesTest {

    // Source: error code table of IEC 61800-7-201 as reproduced by public object dictionaries.
    @ParameterizedTest
    @CsvSource({
        "0x2310, continuous over-current",
        "0x2350, I²t",
        "0x3130, phase",
        "0x3210, over-voltage",
        "0x3220, under-voltage",
        "0x4210, temperature of the device",
        "0x4310, temperature of the drive",
        "0x6310, loss of parameters",
        "0x6320, parameter error",
        "0x7121, blocked",
        "0x7122, commutation",
        "0x7305, incremental sensor 1",
        "0x7500, communication",
        "0x8130, heartbeat",
        "0x8400, velocity controller",
        "0x8611, following error",
        "0x8612, reference limit",
        "0xFF00, manufacturer",
        "0xFFFF, manufacturer"
    })
    void codesOfTheProfileHaveATextWithItsTerm(String code, String term) {
        assertThat(FaultCodes.text(Integer.decode(code)))
                .hasValueSatisfying(text -> assertThat(text).contains(term));
    }

    @Test
    void noFaultAndUnknownCodesHaveNone() {
        assertThat(FaultCodes.text(0)).isEmpty();
        assertThat(FaultCodes.text(0x1234)).isEmpty();
        assertThat(FaultCodes.text(0x1_0000)).isEmpty();
    }
}
