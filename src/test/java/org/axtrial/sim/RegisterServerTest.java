package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HexFormat;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.junit.jupiter.api.Test;

/** Bytes of MODBUS Application Protocol Specification V1.1b3, clause beside each. */
class RegisterServerTest {

    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    private final RegisterImage image = new RegisterImage();
    private boolean refuses;
    private final RegisterServer server = new RegisterServer(image, 125, (cell, words) -> {
        if (!refuses) {
            cell.hold(words);
        }
        return !refuses;
    });

    private static SignalSpec word(RegisterTable table, int address) {
        return InventedDrives.value("r" + address, table, address, ValueType.UINT16, 1, Unit.ONE);
    }

    private void holding(int address, int value) {
        image.add(new RegisterCell.Held(word(RegisterTable.HOLDING, address), value, false));
    }

    private String answer(String request) {
        return HEX.formatHex(server.answer(HEX.parseHex(request)));
    }

    @Test
    void readHoldingRegisters() {
        holding(0x6B, 555);
        holding(0x6C, 0);
        holding(0x6D, 100);
        // Source: 6.3, page 15: registers 108 … 110.
        assertThat(answer("03 00 6B 00 03")).isEqualTo("03 06 02 2B 00 00 00 64");
    }

    @Test
    void readInputRegister() {
        image.add(new RegisterCell.Held(word(RegisterTable.INPUT, 8), 10, false));
        // Source: 6.4, page 16: input register 9.
        assertThat(answer("04 00 08 00 01")).isEqualTo("04 02 00 0A");
    }

    @Test
    void writeSingleRegister() {
        holding(1, 0);
        // Source: 6.6, page 19: register 2 := 3, echoed.
        assertThat(answer("06 00 01 00 03")).isEqualTo("06 00 01 00 03");
        assertThat(answer("03 00 01 00 01")).isEqualTo("03 02 00 03");
    }

    @Test
    void writeMultipleRegisters() {
        holding(1, 0);
        holding(2, 0);
        // Source: 6.12, page 30.
        assertThat(answer("10 00 01 00 02 04 00 0A 01 02")).isEqualTo("10 00 01 00 02");
        assertThat(answer("03 00 01 00 02")).isEqualTo("03 04 00 0A 01 02");
    }

    @Test
    void aDeviceWithAHundredRegistersServesTheLastFourButNotFiveFromThere() {
        for (int i = 0; i < 100; i++) {
            holding(i, i);
        }
        // Source: section 7, page 48, exception code 02.
        assertThat(answer("03 00 60 00 04")).isEqualTo("03 08 00 60 00 61 00 62 00 63");
        assertThat(answer("03 00 60 00 05")).isEqualTo("83 02");
    }

    @Test
    void checksComeInTheOrderOfTheStateDiagrams() {
        holding(0, 0);
        // Source: state diagrams of 6.3, 6.6 and 6.12: 01, then 03, then 02, then 04.
        assertThat(answer("07")).isEqualTo("87 01");
        assertThat(answer("2B 0E 01 00")).isEqualTo("AB 01");
        assertThat(answer("03 FF FF 00 00")).isEqualTo("83 03");
        assertThat(answer("03 FF FF 00 7E")).isEqualTo("83 03");
        assertThat(answer("03 FF FF 00 01")).isEqualTo("83 02");
        refuses = true;
        assertThat(answer("06 00 05 00 00")).isEqualTo("86 02");
        assertThat(answer("06 00 00 00 00")).isEqualTo("86 04");
        assertThat(answer("10 00 05 00 00 00")).isEqualTo("90 03");
        assertThat(answer("10 00 05 00 01 02 00 00")).isEqualTo("90 02");
        assertThat(answer("10 00 00 00 01 02 00 00")).isEqualTo("90 04");
    }

    @Test
    void quantityLimitsAreThoseOfTheSpecification() {
        for (int i = 0; i < 130; i++) {
            holding(i, i);
        }
        // Source: 6.3 quantity 1 … 125; 6.12 quantity 1 … 123 and byte count 2·N.
        assertThat(server.answer(HEX.parseHex("03 00 00 00 7D"))).hasSize(252);
        assertThat(answer("03 00 00 00 7E")).isEqualTo("83 03");
        assertThat(answer("10 00 00 00 7C F8" + " 00".repeat(248))).isEqualTo("90 03");
        assertThat(answer("10 00 00 00 7B F6" + " 00".repeat(246))).isEqualTo("10 00 00 00 7B");
        assertThat(answer("10 00 00 00 02 03 00 00 00")).isEqualTo("90 03");
    }

    @Test
    void aTruncatedOrOverlongRequestIsAnIllegalValue() {
        holding(0, 0);
        assertThat(answer("03 00 00 00")).isEqualTo("83 03");
        assertThat(answer("03 00 00 00 01 00")).isEqualTo("83 03");
        assertThat(answer("06 00 00")).isEqualTo("86 03");
        assertThat(answer("10")).isEqualTo("90 03");
    }

    @Test
    void gapsBetweenDeclaredRegistersReadAsZeroAndCannotBeWritten() {
        holding(10, 1);
        holding(13, 4);
        assertThat(answer("03 00 0A 00 04")).isEqualTo("03 08 00 01 00 00 00 00 00 04");
        assertThat(answer("03 00 09 00 02")).isEqualTo("83 02");
        assertThat(answer("03 00 0D 00 02")).isEqualTo("83 02");
        assertThat(answer("10 00 0A 00 02 04 00 01 00 02")).isEqualTo("90 02");
    }

    @Test
    void halfAValueCanBeReadButNotWritten() {
        SignalSpec wide = InventedDrives.value("wide", RegisterTable.HOLDING, 4, ValueType.INT32, 1, Unit.ONE);
        image.add(new RegisterCell.Held(wide, 0x12345678, false));
        // Source of the value: two's complement, high word first.
        assertThat(answer("03 00 04 00 02")).isEqualTo("03 04 12 34 56 78");
        assertThat(answer("03 00 05 00 01")).isEqualTo("03 02 56 78");
        assertThat(answer("06 00 04 00 01")).isEqualTo("86 02");
        assertThat(answer("06 00 05 00 01")).isEqualTo("86 02");
    }

    @Test
    void overlappingValuesAreAProblem() {
        holding(4, 0);
        image.add(new RegisterCell.Held(
                InventedDrives.value("wide", RegisterTable.HOLDING, 3, ValueType.INT32, 1, Unit.ONE), 0, false));
        assertThat(image.problems()).singleElement().asString().contains("wide at address 3", "overlaps r4");
    }
}
