package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RequestTest {

    // Source: MODBUS Application Protocol V1.1b3, 6.3 (1 … 125 registers) and 6.12 (1 … 123 registers).
    @Test
    void theNumberOfRegistersIsLimited() {
        assertThat(new Request.Read(3, 0, 125).count()).isEqualTo(125);
        assertThat(new Request.WriteBlock(0, new int[123]).count()).isEqualTo(123);
        assertThatThrownBy(() -> new Request.Read(3, 0, 126)).hasMessageContaining("1 … 125 registers, got 126");
        assertThatThrownBy(() -> new Request.Read(3, 0, 0)).hasMessageContaining("got 0");
        assertThatThrownBy(() -> new Request.WriteBlock(0, new int[124])).hasMessageContaining("1 … 123");
        assertThatThrownBy(() -> new Request.WriteBlock(0, new int[0])).hasMessageContaining("got 0");
    }

    @Test
    void addressesEndAt65535() {
        assertThat(new Request.Read(4, 65_535, 1).registers()).isEqualTo("register 65535 (reference 365536)");
        assertThatThrownBy(() -> new Request.Read(3, 65_535, 2))
                .hasMessageContaining("addresses are 0 … 65535, got 65535 … 65536");
        assertThatThrownBy(() -> new Request.WriteSingle(-1, 0)).hasMessageContaining("got -1");
    }

    @Test
    void onlyTheTwoReadFunctionsRead() {
        assertThatThrownBy(() -> new Request.Read(6, 0, 1)).hasMessageContaining("function 3 or 4, got 6");
    }

    @Test
    void aWordThatDoesNotFitIsRefused() {
        for (int word : new int[] {-1, 65_536, 70_000}) {
            assertThatThrownBy(() -> new Request.WriteSingle(7, word))
                    .hasMessage("register 7: a word is 0 … 65535, got " + word);
            assertThatThrownBy(() -> new Request.WriteBlock(6, new int[] {0, word}))
                    .hasMessage("register 7: a word is 0 … 65535, got " + word);
        }
    }

    // Source: common reference-number convention: 40001 is the holding register at address 0, 400001 likewise.
    @ParameterizedTest
    @CsvSource({
        "3, 30, 4, registers 30…33 (references 40031…40034)",
        "3, 107, 1, register 107 (reference 40108)",
        "4, 8, 2, registers 8…9 (references 30009…30010)",
        "3, 9998, 1, register 9998 (reference 49999)",
        "3, 9999, 1, register 9999 (reference 410000)",
    })
    void registersAreNamedAsInManuals(int function, int address, int count, String text) {
        assertThat(new Request.Read(function, address, count).registers()).isEqualTo(text);
    }
}
