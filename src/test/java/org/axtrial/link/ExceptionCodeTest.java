package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ExceptionCodeTest {

    private static final Request READ = new Request.Read(3, 30, 4);

    // Source: MODBUS Application Protocol V1.1b3, section 7, names of the exception codes.
    @ParameterizedTest
    @CsvSource({
        "1, 01 illegal function",
        "2, 02 illegal data address",
        "3, 03 illegal data value",
        "4, 04 server device failure",
        "5, 05 acknowledge",
        "6, 06 server device busy",
        "8, 08 memory parity error",
        "10, 0A gateway path unavailable",
        "11, 0B gateway target device failed to respond",
        "7, 07 a code that the Modbus specification does not define",
        "9, 09 a code that the Modbus specification does not define",
    })
    void theNameOfTheSpecificationAndTheRegisters(int code, String start) {
        assertThat(ExceptionCode.text(code, READ))
                .startsWith(start)
                .contains("registers 30…33 (references 40031…40034)");
    }

    @Test
    void whatToLookAt() {
        assertThat(ExceptionCode.text(2, READ))
                .isEqualTo("02 illegal data address: registers 30…33 (references 40031…40034) are not in the drive's"
                        + " map; the map may be one-based");
    }
}
